import type { ComponentProps, ReactNode } from 'react';
import css from './button.module.css';

interface ButtonProps extends ComponentProps<'button'> {
  /** `main`: the one thing to do here. `quiet`: looks like text until hovered. */
  readonly rank?: 'main' | 'plain' | 'quiet';
}

export function Button({ rank = 'plain', className, ...rest }: ButtonProps): ReactNode {
  const classes = [css.button, rank === 'plain' ? '' : css[rank], className ?? ''].filter((name) => name !== '');
  return <button type="button" className={classes.join(' ')} {...rest} />;
}
