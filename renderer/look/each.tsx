import { Fragment, type ReactNode } from 'react';

interface EachProps<T> {
  readonly of: readonly T[];
  readonly draw: (item: T, at: number) => ReactNode;
}

/** Draws a list whose items have no identity but their place in it. */
export function Each<T>({ of, draw }: EachProps<T>): ReactNode {
  // biome-ignore lint/suspicious/noArrayIndexKey: the place is all that tells these items apart
  return of.map((item, at) => <Fragment key={at}>{draw(item, at)}</Fragment>);
}
