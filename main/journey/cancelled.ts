/** Thrown through a journey when its signal was aborted: a result, not a failure. */
export class Cancelled extends Error {
  constructor() {
    super("cancelled");
    this.name = "Cancelled";
  }
}
