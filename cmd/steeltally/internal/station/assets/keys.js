// Keys as they come from a person, a scanner and a caliper. A device types fast and ends
// with Enter, twice or with a Tab where it is set so; what a person had half typed before a
// scan is dropped, so that it can't become a part of what he types next.

const pause = 300; // ms that a device never waits between two keys
const fast = 50; // ms that a device takes for a key, all in all
const short = 4; // fewer keys than this are no device's
const slowest = 100; // ms at most between the keys that a device sends for one end of a line

// ours is what a symbol of ours carries, with or without a symbology identifier before it,
// and what a caliper types.
const ours = /^(\][a-z][0-9a-z])?([0-9]{10}|t[1-9]\.[0-9a-z.]+)$|^\+?[0-9]{1,4}[.,][0-9]{1,3}$/i;

// whole is what carries its length or its beginning with it.
const whole = /^(\][a-z][0-9a-z])?([0-9]{10}|t[1-9]\.[0-9a-z.]+)$/i;

export class Keys {
  // Where lines stand (value), what takes each, what keys lead to, and whether a button has
  // the focus, which Enter presses.
  constructor(line, send, screens = {}, onButton = () => false) {
    this.input = line;
    this.send = send;
    this.screens = screens;
    this.onButton = onButton;
    this.listens = null; // takes what a scanner does instead, while it is tested
    this.since = -Infinity; // when the page was there: keys before that went elsewhere
    this.unheard = () => {}; // is told of a line that is not taken, since its first keys may have gone there
    this.keys = []; // of what stands in the line
    this.ended = -Infinity; // when the last line ended
    this.alone = -Infinity; // when Enter came alone
    this.apart = fast; // ms at most to what else ends that line
  }

  // key acts on a key that went down, and tells whether it was taken.
  key(e) {
    if (e.isComposing || ((e.ctrlKey || e.metaKey || e.altKey) && !e.getModifierState?.("AltGraph"))) return false;
    if (this.screens[e.key]) { this.screens[e.key](); return true; }
    if (e.key === "Enter") return this.enter(e);
    if (e.key === "Tab") return this.tab(e);
    if (e.key === "Escape") { this.clear(); return true; }
    if (e.key === "Backspace") { this.keys.pop(); this.write(); return true; }
    const dead = e.key === "Dead" && placed(e) !== "";
    if (!dead && (e.key.length !== 1 || (e.key === " " && this.empty() && this.onButton()))) return false;
    this.keys.push({ text: dead ? "" : asMeant(e), place: placed(e), at: e.timeStamp });
    this.write();
    return true;
  }

  write() { this.input.value = this.keys.map((key) => key.text).join(""); }

  empty() { return this.keys.length === 0; }

  clear() { this.keys = []; this.write(); }

  // hear begins to hear keys on a page that is there since then. What stands in the line was
  // typed before.
  hear(since) {
    this.since = since;
    if (this.input.value !== "") this.unheard();
    this.clear();
  }

  // pasted takes over what came into the line by other ways than keys.
  pasted() { this.keys = Array.from(this.input.value, (c) => ({ text: c, place: c, at: 0 })); }

  enter(e) {
    if (e.repeat) return true; // held down, it is meant once
    if (this.empty() && this.restOfEnd(e)) return true;
    if (this.empty() && this.onButton()) return false; // the button in focus is pressed
    return this.end(e);
  }

  // tab ends what a device typed; a person's Tab goes to the next button.
  tab(e) {
    if (e.shiftKey) return false;
    if (this.empty()) return this.restOfEnd(e);
    return e.timeStamp - this.keys.at(-1).at <= oneEnd(this.keys) && this.end(e);
  }

  restOfEnd(e) {
    if (e.timeStamp - this.ended > this.apart) return false;
    this.ended = e.timeStamp;
    this.listens?.rest(e.key);
    return true;
  }

  end(e) {
    const keys = this.lineOfKeys();
    const begun = keys[0]?.at || e.timeStamp; // nothing tells when what was pasted was
    if (this.empty()) this.alone = e.timeStamp;
    const lead = !this.empty() && this.keys[0].at - this.alone <= slowest;
    this.clear();
    this.ended = e.timeStamp;
    this.apart = oneEnd(keys);
    if (begun - this.since < pause && !whole.test(asOurs(keys).trim())) this.unheard();
    else if (this.listens) this.listens.heard({ typed: typedOf(keys), placed: placedOf(keys), ends: [e.key], lead });
    else this.send(asOurs(keys));
    return true;
  }

  // lineOfKeys is what a device typed, without what a person had typed before it; else all.
  lineOfKeys() {
    const all = this.keys;
    let start = Math.max(all.length - 1, 0);
    while (start > 0 && all[start].at - all[start - 1].at < pause) start--;
    const count = all.length - start;
    const device = start > 0 && count >= short && all.at(-1).at - all[start].at <= fast * (count - 1);
    return device ? all.slice(start) : all;
  }
}

// listen gives the keys of the page, wherever the focus is.
export function listen(keys) {
  document.addEventListener("keydown", (e) => {
    if (document.querySelector("dialog[open]") || !keys.key(e)) return;
    e.preventDefault();
    e.stopPropagation();
  }, true);
  keys.input.addEventListener("input", () => keys.pasted());
}

export function onButton() {
  const at = document.activeElement;
  return Boolean(at) && (at.tagName === "BUTTON" || at.tagName === "A" || at.type === "file");
}

const typedOf = (keys) => keys.map((key) => key.text).join("");
const placedOf = (keys) => keys.map((key) => key.place).join("");

// oneEnd is how long the keys of one end lie apart at most, by the speed of the keys before.
function oneEnd(keys) {
  if (keys.length < short) return fast;
  const each = (keys.at(-1).at - keys[0].at) / (keys.length - 1);
  return Math.min(Math.max(fast, 2 * each), slowest);
}

// asOurs is the line as typed, unless only the places of its keys make it one of ours:
// then the scanner types for another keyboard layout than this machine has.
function asOurs(keys) {
  const [typed, placed] = [typedOf(keys), placedOf(keys)];
  return !ours.test(typed.trim()) && ours.test(placed) ? placed : typed;
}

// placed is what a key types on the keyboard for which scanners are made (United States),
// as far as our symbols need it.
function placed(e) {
  const named = /^(?:Digit|Numpad|Key)([0-9A-Z])$/.exec(e.code || "");
  if (named) return named[1];
  return { Minus: "-", Period: ".", NumpadDecimal: ".", Comma: ",", BracketRight: "]", Space: " " }[e.code] ?? (e.key.length === 1 ? e.key : "");
}

// asMeant is a letter without what Caps Lock makes of it, to a person and to a scanner.
function asMeant(e) {
  if (!e.getModifierState?.("CapsLock")) return e.key;
  const small = e.key.toLowerCase();
  return e.key === small ? e.key.toUpperCase() : small;
}
