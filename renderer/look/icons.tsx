import type { ReactNode } from 'react';

function Icon({ path }: { path: string }): ReactNode {
  return (
    <svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
      <path d={path} fill="none" stroke="currentColor" strokeWidth="1.25" strokeLinejoin="round" />
    </svg>
  );
}

export function CopyIcon(): ReactNode {
  return <Icon path="M5.5 5.5h8v8h-8z M10.5 5.5v-3h-8v8h3" />;
}

export function DeleteIcon(): ReactNode {
  return <Icon path="M2.5 4.5h11 M6 4.5v-2h4v2 M4 4.5l.6 9h6.8l.6-9 M6.8 7v4 M9.2 7v4" />;
}

export function OpenIcon(): ReactNode {
  return <Icon path="M5.5 3l5 5-5 5" />;
}

/** A life that falls with the speed. */
export function CurveIcon(): ReactNode {
  return <Icon path="M2.5 2v11.5h11.5 M5 3c.6 4.8 3.2 7.4 8.5 8" />;
}
