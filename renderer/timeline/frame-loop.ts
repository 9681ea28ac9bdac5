/** The one frame loop: any number of reasons to draw, at most one drawing per frame of the display. */
export class FrameLoop {
  private readonly due = new Set<() => void>();
  private frame: number | null = null;

  request(draw: () => void): void {
    this.due.add(draw);
    this.frame ??= requestAnimationFrame(() => {
      this.frame = null;
      const draws = [...this.due];
      this.due.clear();
      for (const each of draws) each();
    });
  }

  stop(): void {
    if (this.frame !== null) cancelAnimationFrame(this.frame);
    this.frame = null;
    this.due.clear();
  }
}
