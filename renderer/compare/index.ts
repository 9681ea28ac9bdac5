export { CompareScreen } from './compare-screen';
export { type CompareStore, createCompareStore, keyOfRef } from './compare-store';
export { NameField } from './name-field';
export { OWN } from './pair';
