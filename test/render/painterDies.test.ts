// A painting child that ends before its answer does: one plain sentence with its own words, and none after a cancel.
import { expect, test } from "vitest";
import { startPaintClient } from "../../main/render/paintClient.edge.ts";
import { layoutOptionsFor } from "./filmFixtures.ts";

const setup = { layoutOptions: layoutOptionsFor(640, 360), route: null, bandW: null };
/** An order that the child cannot obey: its card is of no kind. */
const IMPOSSIBLE = { kind: "card", card: null } as never;

test("what the child said before it ended stands in the failure, with a remedy", async () => {
  const client = startPaintClient(setup, {}, new AbortController().signal);
  try {
    await expect(client.paint(IMPOSSIBLE, () => Promise.resolve())).rejects.toMatchObject({
      code: "internal",
      notice: { code: "panels-unpainted", facts: { said: expect.stringMatching(/^TypeError: .*null/) } },
    });
  } finally {
    client.close();
  }
});

test("a child that is ended from outside says so without words of its own", async () => {
  const client = startPaintClient(setup, {}, new AbortController().signal);
  const painting = client.paint({ kind: "card", card: { kind: "title", title: "Ride", lines: [] } }, () =>
    Promise.resolve(),
  );
  client.close();
  await expect(painting).rejects.toMatchObject({
    code: "internal",
    notice: { code: "panels-unpainted", facts: { said: "" } },
  });
});

test("a cancelled job is a result, not a failure of the painter", async () => {
  const stop = new AbortController();
  const client = startPaintClient(setup, {}, stop.signal);
  const painting = client.paint({ kind: "card", card: { kind: "title", title: "Ride", lines: [] } }, () =>
    Promise.resolve(),
  );
  stop.abort();
  await expect(painting).rejects.toMatchObject({ name: "Cancelled" });
});
