/** Runs one write after another, in the order asked, so that a change always builds on the one before it. */
export function writeQueue(): <T>(write: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve();
  return (write) => {
    const next = last.then(write);
    // A write that fails is its caller's to hear of; the next one goes ahead.
    last = next.catch(() => undefined);
    return next;
  };
}
