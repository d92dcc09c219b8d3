// Drives the queue of lines without a browser: windows open, are loaded anew, copied and
// lost, the clock is set; the station is away, busy, or its answers are lost. Every line
// has to arrive, in the order of its window, saying each time what it said first; and what
// waits stays, in one window.
// Arguments: the queue's file, a seed, how many steps.

const [file, seed, steps] = process.argv.slice(2);
const { Queue } = await import(file);

let state = Number(seed) + 1;
function random(n) { // mulberry32
  state = (state + 0x6d2b79f5) | 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) % n;
}

class Store {
  constructor(from) { this.map = new Map(from?.map); }
  get length() { return this.map.size; }
  key(i) { return [...this.map.keys()][i] ?? null; }
  getItem(name) { return this.map.get(name) ?? null; }
  setItem(name, text) { this.map.set(name, String(text)); }
  removeItem(name) { this.map.delete(name); }
}

const all = new Store();
const faults = [];
const arrived = new Map(); // by key: what the line said
const order = []; // of the keys, as they arrived first
const added = []; // [window, key]
const waits = new Set(); // keys of lines that wait
const clockAt = new Map(); // by key: how often the clock had been set when it was typed
let now = 1.8e12, sets = 0, keys = 0, reachable = 4, quiet = false;
const windows = [];
const held = new Map(); // by name: the window that has it
const never = new Promise(() => {});
const tick = () => new Promise((r) => setImmediate(r));

function serve(path, body) {
  const talk = structuredClone(body.talk);
  if (path === "/part") return { talk, mark: "" };
  const { sent, more, ...said } = body.typed;
  const text = JSON.stringify({ line: body.line, said });
  if (arrived.has(body.key) && arrived.get(body.key) !== text) faults.push(`${body.key} said ${arrived.get(body.key)}, then ${text}`);
  if (!arrived.has(body.key)) order.push(body.key);
  arrived.set(body.key, text);
  if (clockAt.get(body.key) === sets && Date.parse(sent) < Date.parse(said.at)) faults.push(`${body.key} was sent before it was typed`);
  talk.turn = (talk.turn || 0) + 1;
  if (body.line === "waits") {
    waits.add(body.key);
    talk.waits = (talk.waits || 0) + 1;
    talk.waiting = [...(talk.waiting || []), { no: talk.waits, key: body.key, line: body.line }];
  }
  return { talk, mark: "" };
}

// holds tells whether a window that is there has a name.
const holds = (name) => held.has(name) && !held.get(name).gone;

async function open(own) {
  const window = { own, id: windows.length, gone: false };
  windows.push(window);
  const world = {
    now: () => now, own, all,
    key: () => `key ${++keys}`,
    wait: async (ms) => { await tick(); now += ms / 20; if (window.gone) await never; },
    hold: async (name) => {
      await tick();
      if (window.gone) await never;
      if (holds(name)) return false;
      held.set(name, window);
      return true;
    },
    alone: async (name, work) => {
      await tick();
      if (window.gone) await never;
      if (!holds(name)) work();
    },
    post: async (path, body) => {
      const sent = structuredClone(body);
      await tick();
      if (window.gone) await never;
      const luck = quiet ? 0 : random(reachable);
      if (luck === 1) return { text: "away" };
      const answer = serve(path, sent);
      await tick();
      if (window.gone) await never; // recorded, and nobody hears of it
      return luck === 2 ? { text: "the answer was lost" } : { answer };
    },
  };
  window.queue = await Queue.open(world, () => {}, () => {});
}

const live = () => windows.filter((w) => !w.gone && w.queue);
async function step() {
  const window = live()[random(live().length)];
  switch (random(12)) {
    case 0: // loaded anew, now and then once more while it opens
      window.queue.leave();
      window.gone = true;
      if (random(3) === 0) {
        open(window.own);
        if (random(2)) await Promise.resolve();
        windows.at(-1).gone = true;
      }
      await open(window.own);
      if (windows.at(-1).queue.id !== window.queue.id) faults.push(`${window.queue.id} is another window since it was loaded anew`);
      return;
    case 1: // lost
      window.gone = true;
      return live().length > 0 ? null : open(new Store());
    case 2: // copied
      return live().length < 4 ? open(new Store(window.own)) : null;
    case 3:
      return window.queue.go(["jig", "bin", "trip"][random(3)]);
    case 4:
      if (random(2)) { now += [1e10, -1e10][random(2)]; sets++; } else now += random(4) * 40000;
      return live().forEach((w) => w.queue.beat());
    case 5:
      reachable = [1, 2, 3, 4][random(4)];
      return window.queue.redraw();
    default:
      now += random(3000);
      window.queue.look();
      window.queue.add(["17", "", "waits"][random(3)]);
      added.push([window.id, `key ${keys}`]);
      clockAt.set(`key ${keys}`, sets);
  }
}

await open(new Store());
for (let i = 0; i < Number(steps); i++) {
  await step();
  for (let n = random(6); n > 0; n--) await tick();
}
quiet = true;
if (live().length === 0) await open(new Store());
for (let i = 0; i < 40 && (i < 5 || live().some((w) => w.queue.lines.length + w.queue.guests.length > 0)); i++) {
  now += 60000;
  live().forEach((w) => w.queue.beat());
  for (let n = 0; n < 2000; n++) await tick();
}

const place = new Map(order.map((key, i) => [key, i]));
const latest = new Map();
for (const [window, key] of added) {
  if (!place.has(key)) { faults.push(`${key} is lost`); continue; }
  if (place.get(key) < (latest.get(window) ?? -1)) faults.push(`${key} of window ${window} arrived before an earlier one`);
  latest.set(window, place.get(key));
}
const listed = live().flatMap((w) => w.queue.talk.waiting || []).map((l) => l.key);
for (const key of waits) if (!listed.includes(key)) faults.push(`${key} waits nowhere`);
if (new Set(listed).size < listed.length) faults.push("a line waits in two windows");
console.log(JSON.stringify({ lines: added.length, windows: windows.length, waits: waits.size, faults: faults.slice(0, 5) }));
