/** Hands a PDF, base64, to the browser as a file to keep. */
export function savePdf(fileName: string, base64: string): void {
  const bytes = Uint8Array.from(atob(base64), (char) => char.charCodeAt(0));
  const address = URL.createObjectURL(new Blob([bytes], { type: 'application/pdf' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  link.click();
  // The browser reads the blob after this turn.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
