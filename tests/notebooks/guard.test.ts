import { createServer, type Server } from "node:http";
import { connect, type AddressInfo, type Socket } from "node:net";
import { afterEach, expect, it } from "vitest";
import { closeHalfOpen } from "../../notebooks/plugins/guard.ts";

let server: Server;
afterEach(() => void server.close());

/** A server that closes what asks for nothing, and a connection to it. */
async function connected(asking: number): Promise<Socket> {
  server = createServer((_request, response) => response.end("here"));
  closeHalfOpen(server, { asking, body: 60_000, answer: 60_000 });
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  const met = new Promise((done) => server.once("connection", done));
  const socket = connect((server.address() as AddressInfo).port, "127.0.0.1");
  await Promise.all([met, new Promise((done) => socket.once("connect", done))]);
  return socket;
}

const answer = (socket: Socket): Promise<string> =>
  new Promise((done) => {
    let text = "";
    socket.on("data", (piece) => (text += String(piece)));
    socket.on("error", () => done(text));
    socket.on("close", () => done(text));
  });

it("answers what came in time, though the program was too busy to read it", async () => {
  const socket = await connected(200);
  const told = answer(socket);
  socket.write("GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n");
  // Busy for longer than a connection may ask for nothing.
  const until = Date.now() + 500;
  while (Date.now() < until);
  expect(await told).toMatch(/here$/);
});

it("closes a connection that asks for nothing", async () => {
  expect(await answer(await connected(50))).toBe("");
});
