/** The shop's name as a file name on every platform. */
export function fileNameOf(name: string): string {
  const plain = name.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-+|-+$/g, '');
  return plain === '' ? 'shop' : plain.toLowerCase();
}
