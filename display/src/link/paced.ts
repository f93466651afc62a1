/** Work that is wanted often and done seldom: at once when it rests, then once more after each pause. */

/**
 * Does `work` when it is wanted: at once, but never twice at a time and not within `pause` ms of its last end.
 * What is wanted meanwhile is done once, after the pause, however often it is wanted: a rush can neither
 * starve it nor drive it.
 */
export class Paced {
  private state: "rest" | "work" | "pause" | "stopped" = "rest";
  private wanted = false;
  private timer: ReturnType<typeof setTimeout> | undefined;

  /** `work` tells of its own failures; here a failed one has ended like any other. */
  constructor(
    private readonly work: () => Promise<void>,
    private readonly pause: number,
  ) {}

  want(): void {
    if (this.state === "rest") void this.run();
    else this.wanted = true;
  }

  /** Nothing is begun any more. */
  stop(): void {
    this.state = "stopped";
    clearTimeout(this.timer);
  }

  private async run(): Promise<void> {
    this.state = "work";
    this.wanted = false;
    await this.work().catch(() => undefined);
    if (this.stopped()) return;
    this.state = "pause";
    this.timer = setTimeout(() => {
      this.state = "rest";
      if (this.wanted) void this.run();
    }, this.pause);
  }

  private stopped(): boolean {
    return this.state === "stopped";
  }
}
