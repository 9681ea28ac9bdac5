import { useEffect, useState } from 'react';
import { type Address, addressOf, hashOf } from './address';
import { screenOfDigit } from './screens';

export function goTo(address: Address): void {
  window.location.hash = hashOf(address);
}

/** What the address names, so that a reload keeps it. Alt and a number goes to another screen of the same copy. */
export function useAddress(): Address {
  const [address, setAddress] = useState(() => addressOf(window.location.hash));
  useEffect(() => {
    const follow = (): void => setAddress(addressOf(window.location.hash));
    const press = (event: KeyboardEvent): void => {
      if (!event.altKey || event.ctrlKey || event.metaKey || !/^Digit\d$/.test(event.code)) return;
      const screen = screenOfDigit(Number(event.code.slice(5)));
      if (screen === undefined) return;
      event.preventDefault();
      goTo({ ...addressOf(window.location.hash), screen });
    };
    window.addEventListener('hashchange', follow);
    window.addEventListener('keydown', press);
    return () => {
      window.removeEventListener('hashchange', follow);
      window.removeEventListener('keydown', press);
    };
  }, []);
  return address;
}
