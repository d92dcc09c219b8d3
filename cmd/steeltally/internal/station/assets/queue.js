// What was scanned or typed waits here until the program has answered, also over a loss
// of the program or of power; each line has a key, so that none is recorded twice, and
// says what was shown when it was typed, so that it is done as it was meant.
//
// The world is handed in: post(path, body), now(), wait(ms), key(); two storages, of this
// window alone and of all of them, the latter on the disk at once; and what tells whether a
// window is alive, which no clock does: hold(name) has a name for as long as the page is
// there, and says whether it came to that; alone(name, work) does work while nobody has it,
// or nothing.

const again = 1000; // ms until a line is sent again
const patience = 3; // beats for which a window is missed before it is gone: a page that is loaded anew is away for a moment
const alive = 90000; // ms after which a page of an older version is gone, which has no lock and keeps the time instead
const noRoom = "The browser has no room left: what is waiting is lost if this page is closed.";

const item = (id) => "station." + id;

export class Queue {
  // open is the queue of a page that opens. It goes on with what the page before it in this
  // window kept, else with what a window that is gone left.
  static async open(world, show, trouble) {
    const before = world.own.getItem("window");
    const stays = before !== null && await world.hold(item(before));
    world.own.removeItem("window"); // a copy of the window takes it along
    const queue = new Queue(world, stays ? before : world.key(), show, trouble);
    if (!stays) await world.hold(item(queue.id));
    const kept = queue.read(item(queue.id));
    if (kept) queue.goOn(kept); else await queue.inheritAll();
    queue.beat();
    return queue;
  }

  constructor(world, id, show, trouble) {
    this.world = world;
    this.id = id;
    this.show = show;
    this.trouble = trouble;
    this.goOn(fresh);
    this.missed = new Map(); // for how many beats each other window was not there
    this.mark = ""; // of the record that is shown
    this.begun = null; // the turn that was shown when the line was begun
    this.stale = false; // what is shown is to be drawn anew
    this.away = false; // the last line was not answered
    this.full = false; // what waits could not be kept
    this.text = ""; // why no answer comes
  }

  // goOn goes on with what a window kept: its talk, its lines, and what windows that are
  // gone left to it.
  goOn({ talk, lines, guests, n }) { Object.assign(this, { talk: { ...talk }, lines: [...lines], guests: guests || [], n: n || 0 }); }

  // leave keeps the window's name for the page that comes next in it.
  leave() { this.world.own.setItem("window", this.id); this.keep(); }

  // stay is for a page that was not left after all.
  stay() { this.world.own.removeItem("window"); }

  // read gives what a window kept that is gone, or null.
  read(name) {
    try {
      const kept = JSON.parse(this.world.all.getItem(name));
      const older = Math.abs(this.world.now() - kept.at) < alive && name !== item(this.id);
      return kept.talk && Array.isArray(kept.lines) && !older ? kept : null;
    } catch { return null; }
  }

  // keep tells whether there was room to keep what waits. It counts what it keeps: what was
  // kept later has more.
  keep() {
    const { talk, lines, guests } = this;
    const what = () => JSON.stringify({ talk, lines, guests, n: this.n });
    if (what() !== this.kept) {
      this.n++;
      this.kept = what();
    }
    try {
      this.world.all.setItem(item(this.id), this.kept);
      this.full = false;
    } catch { this.full = true; }
    if (this.full) this.tell(this.text);
    return !this.full;
  }

  // take keeps what another window kept as this one's. Where there is no room for both the
  // other's makes some.
  take(name) {
    const { all } = this.world;
    const kept = all.getItem(name);
    if (this.keep()) { all.removeItem(name); return true; }
    all.removeItem(name);
    if (this.keep()) return true;
    all.setItem(name, kept);
    return false;
  }

  // tell says why no answer comes, and that what waits is nowhere but here.
  tell(text) {
    this.text = text;
    const lost = this.full && holdsLines(this) ? noRoom : "";
    this.trouble([text, lost].filter(Boolean).join(" "), this.lines);
  }

  // beat sends what waits, and takes over what windows that are gone left.
  async beat() {
    this.keep();
    this.work();
    for (const name of this.others()) {
      const missed = (this.missed.get(name) || 0) + 1;
      this.missed.delete(name);
      await this.world.alone(name, () => { if (missed < patience) this.missed.set(name, missed); else this.takeOver(name); });
    }
  }

  // others are the names of what other windows keep.
  others() {
    const { all } = this.world;
    const names = Array.from({ length: all.length }, (_, i) => all.key(i));
    return names.filter((name) => name.startsWith(item("")) && name !== item(this.id));
  }

  // inheritAll is for a new window: it goes on with all that one which is gone left.
  async inheritAll() {
    let found = false;
    for (const name of this.others()) {
      if (found) return;
      await this.world.alone(name, () => {
        const kept = this.read(name);
        if (!kept || !holdsLines(kept) && !holdsWork(kept)) return;
        this.goOn(kept);
        found = this.take(name);
        if (!found) this.goOn(fresh);
      });
    }
  }

  // takeOver takes the lines of a window that is gone, behind this one's own, and where it
  // turned to other screens between them. Work that was begun there is left to a window that
  // opens.
  takeOver(name) {
    const kept = this.read(name);
    if (!kept || !holdsLines(kept) && holdsWork(kept)) return;
    if (!holdsLines(kept)) { this.world.all.removeItem(name); return; }
    const own = this.guests;
    this.guests = [...own, { talk: kept.talk, lines: kept.lines }, ...(kept.guests || [])];
    if (!this.take(name)) this.guests = own;
    this.work();
  }

  // look notes what is shown when a line is begun.
  look() { this.begun = this.talk.turn || 0; }

  // screen is the one that was turned to last, shown or not.
  screen() { return this.lines.findLast((l) => l.go)?.go || this.talk.screen || "jig"; }

  add(line) {
    const { talk, world } = this;
    const screen = this.screen();
    const typed = { at: new Date(world.now()).toISOString(), turn: this.begun ?? talk.turn ?? 0, screen, card: talk.about?.number, book: talk.book };
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
    try {
      while (this.lines.length > 0 || this.guests.length > 0 || this.stale) {
        const guest = this.lines.length > 0 || this.stale ? null : this.guests[0];
        const done = await this.step(guest || this, guest);
        if (!done) await this.world.wait(again);
      }
    } finally { this.working = false; } // what can't be shown keeps nothing from being sent
  }

  // step sends the first line of this window, or of one that is gone.
  async step(from, guest) {
    const first = from.lines[0];
    if (guest && !first) return this.inherit(guest);
    const { path, body } = first && first.go === undefined ? this.lineOf(first, from) : this.part(first, from);
    const { answer, text } = await this.world.post(path, body);
    this.away = !answer;
    if (!answer) { this.tell(text); return false; }
    if (first) from.lines.shift();
    from.talk = answer.talk;
    if (!guest) { this.mark = answer.mark; this.stale = false; }
    this.keep();
    this.tell("");
    if (!guest) this.show(answer, path === "/line");
    return true;
  }

  lineOf({ line, key, typed }, { talk, lines }) {
    const more = lines.slice(1).some((l) => l.go === undefined);
    return { path: "/line", body: { line, key, talk, typed: { ...typed, sent: new Date(this.world.now()).toISOString(), more } } };
  }

  part(first, { talk }) { return { path: "/part", body: { talk: first ? { ...talk, screen: first.go } : talk } }; }

  // inherit takes the lines that wait from a window that is gone into this one's list, once
  // its own are sent.
  inherit({ talk }) {
    if (!this.leaveWork(talk)) return false;
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

  // leaveWork leaves work that was begun in a window that is gone to one that opens, and
  // tells whether there was room.
  leaveWork({ waiting, asked, asker, doubt, ...talk }) {
    if (!holdsWork({ talk })) return true;
    try { this.world.all.setItem(item(this.world.key()), JSON.stringify({ talk, lines: [], n: 1 })); } catch { return false; }
    return true;
  }
}

const fresh = { talk: { screen: "jig" }, lines: [] }; // what a window begins with

// holdsLines tells whether a window left lines that are not recorded.
function holdsLines({ talk, lines, guests }) { return lines.length > 0 || guests?.length > 0 || talk.waiting?.length > 0 || Boolean(talk.asker); }

// holdsWork tells whether it left work that was begun.
function holdsWork({ talk }) { return talk.bin?.length > 0 || talk.readings?.length > 0; }
