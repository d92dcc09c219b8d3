// The page: what comes from the keys goes to the queue, what comes back is shown.

import { Keys, listen, onButton } from "./keys.js";
import { Queue } from "./queue.js";
import { sound } from "./sound.js";
import { lost, world } from "./world.js";
import { pictures } from "./pictures.js";

const $ = (id) => document.getElementById(id);
const scans = []; // of a scanner that is tested
const plots = new Map(); // the last picture of each pair, shown until the new one is drawn

function show(answer, acted) {
  if (answer.told && (acted || answer.tone === "wrong")) { $("told").innerHTML = answer.told; }
  if (acted) { sound(answer.tone); window.scrollTo(0, 0); }
  if (answer.main) $("main").innerHTML = answer.main; // none where the book can't be opened: what was shown stays
  if (answer.board) $("board").innerHTML = answer.board;
  $("waits").innerHTML = answer.waiting;
  mark(queue.screen());
  keys.listens = answer.talk.screen === "scanner" ? { heard, rest } : null;
  if (keys.listens && endsOf(answer.talk.heard) !== endsOf(scans)) tellScans(); // more came meanwhile
  fillPlot();
  fillSlow();
  tick();
}

// heard keeps what a scanner that is tested did; rest, what it sent behind the end of it.
function heard(scan) {
  if (scan.typed) { scans.push(scan); tellScans(); }
}

function rest(key) {
  scans.at(-1)?.ends.push(key);
  tellScans();
}

const endsOf = (list) => (list || []).map((scan) => scan.ends.length).join();

function tellScans() {
  queue.talk.heard = scans;
  queue.redraw();
}

// mark shows which screen was turned to.
function mark(screen) {
  for (const tab of document.querySelectorAll("nav button")) {
    if (tab.dataset.screen === screen) tab.setAttribute("aria-current", "page"); else tab.removeAttribute("aria-current");
  }
}

// trouble says why no answer comes, and which lines are kept until then.
function trouble(text, lines) {
  if (text !== null) { $("trouble").textContent = text; $("trouble").hidden = !text; }
  if (!lines) return;
  const kept = lines.filter((l) => l.go === undefined);
  $("waiting").textContent = kept.length ? `${kept.length} waiting` : "";
  $("kept").hidden = $("trouble").hidden || kept.length === 0;
  $("kept").textContent = kept.slice(-12).map((l) => `${new Date(l.typed.at).toTimeString().slice(0, 5)} ${l.line || "Enter"}`).join(" · ");
}

async function fillPlot() {
  const place = document.querySelector("[data-plot]");
  if (!place) return;
  const pair = place.dataset.plot;
  if (plots.has(pair)) place.innerHTML = plots.get(pair);
  for (const fresh of ["", "?fresh=1"]) {
    const svg = await text(`/plot/${pair}${fresh}`);
    if (!svg) return;
    plots.set(pair, svg);
    if (!place.isConnected) return;
    place.innerHTML = svg;
  }
}

async function fillSlow() {
  const place = document.querySelector("[data-slow]");
  if (!place) return;
  const html = await text("/slow", { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ talk: queue.talk }) });
  if (place.isConnected && html !== null) place.innerHTML = html;
}

async function text(path, how) {
  try {
    const response = await fetch(path, how);
    return response.ok ? await response.text() : null;
  } catch { return null; }
}

function tick() {
  const crisis = queue.talk.crisis;
  $("clock").hidden = !crisis;
  if (!crisis) return;
  $("clock").querySelector(".whose").textContent = `${crisis.who} ${crisis.side}`;
  const seconds = Math.max(0, Math.floor((Date.now() - Date.parse(crisis.since)) / 1000));
  $("clock").querySelector("b").textContent = `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}

async function readPicture(blob) {
  if (!blob) return trouble("There is no camera that this page may use.");
  $("told").innerHTML = "<div class='told shown'><p>reading the picture…</p></div>";
  try {
    const response = await fetch("/picture", { method: "POST", body: blob });
    const answer = await response.json();
    $("told").innerHTML = answer.told;
    sound(answer.tone);
    const feed = answer.feed || [];
    if (feed.length > 1 && !["bin", "trip"].includes(queue.screen())) queue.go("bin");
    queue.look();
    for (const line of feed) queue.add(line);
  } catch { trouble("The picture did not reach the station."); }
}

// unheard says that a line was not taken.
function unheard() {
  const why = "It was begun before this page was there: scan or type it again.";
  $("told").innerHTML = `<div class='told wrong'><p class='mark'><span aria-hidden='true'>✕</span> NOT RECORDED</p><div><p>${why}</p></div></div>`;
  sound("wrong");
}

function turnTo(screen) {
  scans.length = 0;
  $("told").replaceChildren();
  queue.go(screen);
  mark(screen);
}

let queue;
const early = []; // what was done before the queue was there
const withQueue = (act) => { if (queue) act(); else early.push(act); };
const screens = {};
for (const tab of document.querySelectorAll("nav button")) {
  screens[tab.querySelector("kbd").textContent] = () => withQueue(() => turnTo(tab.dataset.screen));
}
document.addEventListener("keydown", () => { if ($("line").value === "") queue?.look(); }, true); // before the key is taken
const keys = new Keys($("line"), (line) => withQueue(() => queue.add(line)), screens, onButton);
keys.unheard = unheard;
keys.hear(Infinity);
listen(keys);
document.addEventListener("click", (e) => {
  const button = e.target.closest("button");
  if (!button) return;
  if (button.dataset.screen) withQueue(() => turnTo(button.dataset.screen));
  if (button.dataset.line !== undefined) withQueue(() => { queue.look(); queue.add(button.dataset.line); $("line").focus(); });
});
queue = await Queue.open(await world(), show, trouble);
keys.since = performance.now();
window.addEventListener("pagehide", () => queue.leave());
window.addEventListener("pageshow", (e) => { queue.stay(); if (e.persisted) keys.hear(e.timeStamp); });
for (const act of early) act();
pictures(readPicture);
setInterval(tick, 500);
setInterval(() => queue.beat(), 5000);

// follow hears of changes. A page that is not let in any more says so, and tries again.
function follow() {
  const events = new EventSource("/events");
  events.addEventListener("grown", (e) => { if (e.data !== queue.mark) queue.redraw(); });
  events.addEventListener("open", () => { queue.tell(""); queue.work(); });
  events.addEventListener("error", () => {
    if (events.readyState !== EventSource.CLOSED) return queue.tell(lost);
    queue.redraw();
    setTimeout(follow, 1000);
  });
}
follow();
queue.redraw();
