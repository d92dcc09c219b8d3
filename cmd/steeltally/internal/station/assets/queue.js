// What was scanned or typed waits here until the program has answered, also over a loss
// of the program or of power; each line has a key, so that none is recorded twice.

const again = 1000; // ms until a line is sent again
const alive = 15000; // ms after which another window's lines are nobody's

export class Queue {
  constructor(show, trouble) {
    this.show = show;
    this.trouble = trouble;
    this.id = sessionStorage.getItem("window") || crypto.randomUUID();
    sessionStorage.setItem("window", this.id);
    const kept = this.read(this.id) || this.adopt();
    this.talk = kept?.talk || { screen: "jig" };
    this.lines = kept?.lines || [];
    this.turn = 0; // counts the lines that were answered
    this.mark = ""; // of the record that is shown
    setInterval(() => this.keep(), alive / 3);
    this.keep();
  }

  read(id) { try { return JSON.parse(localStorage.getItem("station." + id)); } catch { return null; } }

  keep() { localStorage.setItem("station." + this.id, JSON.stringify({ talk: this.talk, lines: this.lines, at: Date.now() })); }

  // adopt takes over what a window that is gone had not sent yet.
  adopt() {
    for (const name of Object.keys(localStorage)) {
      const kept = name.startsWith("station.") && this.read(name.slice(8));
      if (!kept || Date.now() - kept.at < alive) continue;
      localStorage.removeItem(name);
      if (kept.lines.length > 0) return kept;
    }
    return null;
  }

  add(line) {
    this.lines.push({ line, key: crypto.randomUUID() });
    this.keep();
    this.work();
  }

  async work() {
    if (this.working) return;
    this.working = true;
    while (this.lines.length > 0) {
      const first = this.lines[0];
      const answer = await post("/line", { ...first, talk: this.talk }, this.trouble);
      if (!answer) { this.trouble(null, this.lines.length); await new Promise((r) => setTimeout(r, again)); continue; }
      this.lines.shift();
      this.turn++;
      this.talk = answer.talk;
      this.mark = answer.mark;
      this.keep();
      this.trouble("", this.lines.length);
      this.show(answer, true);
    }
    this.working = false;
  }

  // go shows another screen, or the same one anew.
  async go(screen) {
    if (this.working) return;
    if (screen) { this.talk.screen = screen; this.keep(); }
    const turn = this.turn;
    const answer = await post("/part", { talk: this.talk }, this.trouble);
    if (!answer || this.working || turn !== this.turn) return; // a line came meanwhile: what it left counts
    this.talk = answer.talk;
    this.mark = answer.mark;
    this.trouble("", this.lines.length);
    this.show(answer, false);
  }
}

// post gives the answer, or nothing where there was none.
export async function post(path, body, trouble) {
  try {
    const response = await fetch(path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body), signal: AbortSignal.timeout(30000) });
    if (response.ok) return await response.json();
    trouble(response.status === 401 ? "This page is not let in any more: open the link that steeltally station prints. What you scan is kept." : await response.text());
  } catch {
    trouble("The station does not answer. What you scan is kept, and sent when it is back: steeltally station");
  }
  return null;
}
