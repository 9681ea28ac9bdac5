import type { ReactNode } from 'react';
import {
  parseAmount,
  parseClockTime,
  parseId,
  parseLength,
  parseMoment,
  parseOptionalId,
  parseOptionalMoment,
  parseSomeLength,
  parseText,
  parseWhole,
  parseWords,
  showLength,
  showMoment,
  showWords,
} from '../parse';
import { usePlanMoment } from '../store';
import { EditField, type FieldProps } from './edit-field';

const asIs = (text: string): string => text;

export function TextField(
  props: FieldProps<string> & { suggest?: readonly string[]; placeholder?: string },
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

export function WholeField({ least = 0, ...props }: FieldProps<number> & { least?: number; size?: number }): ReactNode {
  return <EditField {...props} align="end" parse={parseWhole(least)} show={String} />;
}

export function AmountField(props: FieldProps<number> & { size?: number }): ReactNode {
  return <EditField {...props} align="end" parse={parseAmount} show={String} />;
}

/** Minutes, shown and typed as hours and minutes. */
export function LengthField({ some, ...props }: FieldProps<number> & { some?: boolean; size?: number }): ReactNode {
  return <EditField {...props} align="end" parse={some ? parseSomeLength : parseLength} show={showLength} />;
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

export function WordsField(props: FieldProps<readonly string[]> & { placeholder?: string }): ReactNode {
  return <EditField {...props} parse={parseWords} show={showWords} />;
}
