// What was scanned or typed waits here until the program has answered, also over a loss
// of the program or of power; each line has a key, so that none is recorded twice, and
// says what was shown when it was typed, so that it is done as it was meant.
//
// The world is handed in: post(path, body), now(), wait(ms), key(), and two storages, of
// this window alone and of all of them.

const again = 1000; // ms until a line is sent again
const alive = 90000; // ms after which another window's lines are nobody's; a hidden one tells each minute

export class Queue {
  constructor(world, show, trouble) {
    this.world = world;
    this.show = show;
    this.trouble = trouble;
    this.id = world.own.getItem("window") || world.key();
    this.stay();
    const kept = this.read(this.id) || this.heritage();
    this.talk = kept?.talk || { screen: "jig" };
    this.lines = kept?.lines || [];
    this.guests = kept?.guests || []; // what windows that are gone left
    this.mark = ""; // of the record that is shown
    this.begun = null; // the turn that was shown when the line was begun
    this.stale = false; // what is shown is to be drawn anew
    this.away = false; // the last line was not answered
    this.beat();
  }

  // stay keeps the window's name from a copy of the window, which takes it along.
  stay() { this.world.own.removeItem("window"); }

  // leave keeps it for the page that comes next in this window.
  leave() { this.world.own.setItem("window", this.id); this.keep(); }

  read(id) { try { return JSON.parse(this.world.all.getItem("station." + id)); } catch { return null; } }

  keep() {
    const { talk, lines, guests } = this;
    try {
      this.world.all.setItem("station." + this.id, JSON.stringify({ talk, lines, guests, at: this.world.now() }));
    } catch {
      this.trouble("The browser has no room left: what is waiting is lost if this page is closed.", this.lines);
    }
  }

  // beat says that this window is alive, and takes over what windows that are gone left.
  beat() {
    this.keep();
    for (const { name, kept } of this.gone()) {
      if (holdsLines(kept)) {
        this.guests.push({ talk: kept.talk, lines: kept.lines.filter((l) => l.go === undefined) }, ...(kept.guests || []));
        this.keep();
      }
      if (holdsLines(kept) || !holdsWork(kept)) this.world.all.removeItem(name);
    }
    this.work();
  }

  // heritage is what a new window goes on with: all that one which is gone left.
  heritage() {
    const left = this.gone().find(({ kept }) => holdsLines(kept) || holdsWork(kept));
    if (left) this.world.all.removeItem(left.name);
    return left?.kept;
  }

  // gone are the windows that have not been heard of for long.
  gone() {
    const { all, now } = this.world;
    const names = Array.from({ length: all.length }, (_, i) => all.key(i)).filter((n) => n.startsWith("station.") && n !== "station." + this.id);
    return names.map((name) => ({ name, kept: this.read(name.slice(8)) })).filter(({ kept }) => kept && Math.abs(now() - kept.at) >= alive);
  }

  // look notes what is shown when a line is begun.
  look() { this.begun = this.talk.turn || 0; }

  // screen is the one that was turned to last, shown or not.
  screen() { return this.lines.findLast((l) => l.go)?.go || this.talk.screen || "jig"; }

  add(line) {
    const { talk, world } = this;
    const screen = this.screen();
    const typed = { at: new Date(world.now()).toISOString(), turn: this.begun ?? talk.turn ?? 0, screen, card: talk.about?.number };
    if (screen === talk.screen) typed.rows = talk.rows;
    this.begun = null;
    this.lines.push({ line, key: world.key(), typed });
    this.keep();
    if (this.away) this.trouble(null, this.lines);
    this.work();
  }

  // go turns to another screen, behind what was typed before.
  go(screen) {
    this.lines.push({ go: screen });
    this.keep();
    this.work();
  }

  // redraw shows the same screen anew.
  redraw() {
    this.stale = true;
    return this.work();
  }

  async work() {
    if (this.working) return;
    this.working = true;
    while (this.lines.length > 0 || this.guests.length > 0 || this.stale) {
      const guest = this.lines.length > 0 ? null : this.guests[0];
      const done = await this.step(guest || this, guest);
      if (!done) await this.world.wait(again);
    }
    this.working = false;
  }

  // step sends the first line of this window, or of one that is gone.
  async step(from, guest) {
    const first = from.lines[0];
    if (guest && !first) return this.inherit(guest);
    const { path, body } = first && first.go === undefined ? this.lineOf(first, from) : this.part(first, from);
    const { answer, text } = await this.world.post(path, body);
    this.away = !answer;
    if (!answer) { this.trouble(text, this.lines); return false; }
    if (first) from.lines.shift();
    from.talk = answer.talk;
    if (!guest) { this.mark = answer.mark; this.stale = false; }
    this.keep();
    this.trouble("", this.lines);
    if (!guest) this.show(answer, path === "/line");
    return true;
  }

  lineOf({ line, key, typed }, { talk, lines }) {
    const more = lines.slice(1).some((l) => l.go === undefined);
    return { path: "/line", body: { line, key, talk, typed: { ...typed, sent: new Date(this.world.now()).toISOString(), more } } };
  }

  part(first, { talk }) { return { path: "/part", body: { talk: first ? { ...talk, screen: first.go } : talk } }; }

  // inherit takes the lines that wait from a window that is gone into this one's list.
  inherit({ talk }) {
    const asker = talk.asker && talk.asked ? [{ ...talk.asker, why: talk.asked.text }] : [];
    for (const line of [...(talk.waiting || []), ...asker]) {
      if (this.talk.waiting?.some((l) => l.key === line.key)) continue;
      this.talk.waits = (this.talk.waits || 0) + 1;
      this.talk.waiting = [...(this.talk.waiting || []), { ...line, no: this.talk.waits }];
    }
    this.guests.shift();
    this.stale = true;
    this.keep();
    return true;
  }
}

// holdsLines tells whether a window left lines that are not recorded.
function holdsLines({ talk, lines, guests }) { return lines.length > 0 || guests?.length > 0 || talk.waiting?.length > 0 || Boolean(talk.asker); }

// holdsWork tells whether it left work that was begun.
function holdsWork({ talk }) { return talk.bin?.length > 0 || talk.readings?.length > 0; }
