/** Hands a text to the browser as a file to keep. */
export function saveText(fileName: string, text: string, type: 'application/json' | 'text/csv'): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  link.click();
  // The browser reads the blob after this turn.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
