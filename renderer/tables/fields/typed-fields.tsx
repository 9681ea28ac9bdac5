import type { ReactNode } from 'react';
import {
  parseAmount,
  parseChance,
  parseClockTime,
  parseId,
  parseLength,
  parseMinutesList,
  parseMoment,
  parseOptionalId,
  parseOptionalMoment,
  parseOptionalWhole,
  parseShare,
  parseSomeLength,
  parseText,
  parseWhole,
  parseWords,
  showLength,
  showMinutesList,
  showMoment,
  showPercent,
  showWords,
} from '../parse';
import { usePlanMoment } from '../store';
import { EditField, type FieldProps } from './edit-field';

const asIs = (text: string): string => text;

interface Changing<V> {
  readonly change?: (record: unknown, value: V) => unknown;
}

export function TextField(
  props: FieldProps<string> & Changing<string> & { suggest?: readonly string[]; placeholder?: string; size?: number },
): ReactNode {
  return <EditField {...props} parse={parseText} show={asIs} />;
}

export function IdField(props: FieldProps<string> & { suggest?: readonly string[] }): ReactNode {
  return <EditField {...props} parse={parseId} show={asIs} />;
}

/** An id, or nothing. */
export function OptionalIdField(
  props: FieldProps<string | null> & { suggest?: readonly string[]; placeholder?: string },
): ReactNode {
  return <EditField {...props} parse={parseOptionalId} show={(id) => id ?? ''} />;
}

export function WholeField({
  least = 0,
  ...props
}: FieldProps<number> & Changing<number> & { least?: number; size?: number }): ReactNode {
  return <EditField {...props} align="end" parse={parseWhole(least)} show={String} />;
}

export function AmountField(props: FieldProps<number> & { size?: number }): ReactNode {
  return <EditField {...props} align="end" parse={parseAmount} show={String} />;
}

/** Minutes, shown and typed as hours and minutes. */
export function LengthField({ some, ...props }: FieldProps<number> & { some?: boolean; size?: number }): ReactNode {
  return <EditField {...props} align="end" parse={some ? parseSomeLength : parseLength} show={showLength} />;
}

/** Minutes, shown as minutes; hours and minutes may be typed. */
export function MinutesField({
  some,
  ...props
}: FieldProps<number> & Changing<number> & { some?: boolean; size?: number }): ReactNode {
  return <EditField {...props} align="end" parse={some ? parseSomeLength : parseLength} show={String} />;
}

export function MinutesListField(props: FieldProps<readonly number[]> & { placeholder?: string }): ReactNode {
  return <EditField {...props} parse={parseMinutesList} show={showMinutesList} />;
}

/** A whole number from 1 up, or nothing for no limit. */
export function OptionalWholeField(
  props: FieldProps<number | null> & { size?: number; placeholder?: string },
): ReactNode {
  return <EditField {...props} align="end" parse={parseOptionalWhole} show={(n) => (n === null ? '' : String(n))} />;
}

/** A share, shown and typed as percent from 0 to 100. */
export function ShareField(props: FieldProps<number> & { size?: number }): ReactNode {
  return <EditField {...props} align="end" parse={parseShare} show={showPercent} />;
}

/** A chance, shown and typed as percent below 100. */
export function ChanceField(props: FieldProps<number> & { size?: number }): ReactNode {
  return <EditField {...props} align="end" parse={parseChance} show={showPercent} />;
}

export function ClockTimeField({ inTable, ...props }: FieldProps<string> & { inTable?: boolean }): ReactNode {
  return <EditField {...props} {...(inTable ? {} : { size: 5 })} parse={parseClockTime} show={asIs} />;
}

export function MomentField(props: FieldProps<string> & { size?: number }): ReactNode {
  const near = usePlanMoment();
  return <EditField {...props} parse={parseMoment(near)} show={(moment) => showMoment(moment, near)} />;
}

export function OptionalMomentField(props: FieldProps<string | null> & { placeholder?: string }): ReactNode {
  const near = usePlanMoment();
  const show = (moment: string | null): string => (moment === null ? '' : showMoment(moment, near));
  return <EditField {...props} parse={parseOptionalMoment(near)} show={show} />;
}

export function WordsField(props: FieldProps<readonly string[]> & { placeholder?: string; size?: number }): ReactNode {
  return <EditField {...props} parse={parseWords} show={showWords} />;
}
