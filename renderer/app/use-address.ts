import { useEffect, useState } from 'react';
import { type ScreenId, screenOf, screenOfDigit } from './screens';

export function goTo(screen: ScreenId): void {
  window.location.hash = `#/${screen}`;
}

/** The screen the address names, so that a reload keeps it. Alt and a number goes to another. */
export function useScreen(): ScreenId {
  const [screen, setScreen] = useState(() => screenOf(window.location.hash));
  useEffect(() => {
    const follow = (): void => setScreen(screenOf(window.location.hash));
    const press = (event: KeyboardEvent): void => {
      if (!event.altKey || event.ctrlKey || event.metaKey || !/^Digit\d$/.test(event.code)) return;
      const chosen = screenOfDigit(Number(event.code.slice(5)));
      if (chosen === undefined) return;
      event.preventDefault();
      goTo(chosen);
    };
    window.addEventListener('hashchange', follow);
    window.addEventListener('keydown', press);
    return () => {
      window.removeEventListener('hashchange', follow);
      window.removeEventListener('keydown', press);
    };
  }, []);
  return screen;
}
