import { type ReactNode, useEffect, useRef, useState } from 'react';
import { Button } from './button';
import css from './two-step-button.module.css';

interface TwoStepProps {
  readonly say: string;
  /** What will happen, asked in place of the button. */
  readonly ask: string;
  readonly yes: string;
  readonly no: string;
  readonly onYes: () => void;
  /** Of the button that asks. */
  readonly rank?: 'plain' | 'quiet';
}

/** For what replaces everything: asks once more, where the button stands. */
export function TwoStepButton({ say, ask, yes, no, onYes, rank = 'plain' }: TwoStepProps): ReactNode {
  const [asking, setAsking] = useState(false);
  const keep = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (asking) keep.current?.focus();
  }, [asking]);
  if (!asking) {
    return (
      <Button rank={rank} onClick={() => setAsking(true)}>
        {say}
      </Button>
    );
  }
  return (
    <fieldset
      className={css.asking}
      aria-label={ask}
      onKeyDown={(event) => {
        if (event.key === 'Escape') setAsking(false);
      }}
    >
      <span>{ask}</span>
      <Button
        rank="main"
        onClick={() => {
          setAsking(false);
          onYes();
        }}
      >
        {yes}
      </Button>
      <Button ref={keep} onClick={() => setAsking(false)}>
        {no}
      </Button>
    </fieldset>
  );
}
