// Keys are caught wherever the focus is. A scanner and a caliper type fast and end with
// Enter; what a person had half typed before a scan is dropped, so that it can't become a
// part of what he types next.

const pause = 300; // ms that a device never waits between two keys
const fast = 50; // ms that a device takes for a key, all in all
const short = 4; // fewer keys than this are no device's

export class Keys {
  constructor(input, send, screens) {
    this.input = input;
    this.send = send;
    this.times = [];
    this.screens = screens;
    document.addEventListener("keydown", (e) => this.key(e), true);
    input.addEventListener("input", () => this.pasted());
  }

  key(e) {
    if (e.isComposing || e.ctrlKey || e.metaKey || e.altKey) return;
    if (document.querySelector("dialog[open]")) return;
    if (this.screens[e.key]) return this.taken(e, () => this.screens[e.key]());
    if (e.key === "Enter") return this.enter(e);
    if (e.key === "Escape") return this.taken(e, () => this.clear());
    if (e.key === "Backspace") return this.taken(e, () => this.cut());
    if (e.key.length !== 1 || (e.key === " " && this.empty() && onButton())) return;
    this.taken(e, () => {
      this.input.value += asMeant(e);
      this.times.push(e.timeStamp);
    });
  }

  taken(e, act) {
    e.preventDefault();
    e.stopPropagation();
    act();
  }

  empty() { return this.input.value === ""; }

  clear() { this.input.value = ""; this.times = []; }

  cut() { this.input.value = this.input.value.slice(0, -1); this.times = this.times.slice(0, this.input.value.length); }

  // pasted takes over what came into the line by other ways than keys.
  pasted() { this.times = Array.from(this.input.value, () => 0); }

  enter(e) {
    if (this.empty() && onButton()) return; // the button in focus is pressed
    this.taken(e, () => {
      const line = this.line();
      this.clear();
      this.send(line);
    });
  }

  // line is what a device typed, without what a person had typed before it; else all of it.
  line() {
    const text = this.input.value;
    let start = text.length - 1;
    while (start > 0 && this.times[start] - this.times[start - 1] < pause) start--;
    const keys = text.length - start;
    const device = start > 0 && keys >= short && this.times[text.length - 1] - this.times[start] <= fast * (keys - 1);
    return device ? text.slice(start) : text;
  }
}

// asMeant is a letter without what Caps Lock makes of it, to a person and to a scanner.
function asMeant(e) {
  if (!e.getModifierState("CapsLock")) return e.key;
  const small = e.key.toLowerCase();
  return e.key === small ? e.key.toUpperCase() : small;
}

function onButton() {
  const at = document.activeElement;
  return at && (at.tagName === "BUTTON" || at.tagName === "A" || at.type === "file");
}
