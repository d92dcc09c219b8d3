// What the queue of lines needs of the browser.

// lost says that nothing answers.
export const lost = "The station does not answer. What you scan is kept, and sent when it is back: steeltally station";

const leaving = 2000; // ms that a page takes at most to be gone

// world is the browser's own.
export function world() {
  return {
    post,
    now: () => Date.now(),
    wait: (ms) => new Promise((r) => setTimeout(r, ms)),
    key: () => crypto.randomUUID(),
    own: sessionStorage,
    all: localStorage,
    hold,
    alone: (name, work) => navigator.locks.request(name, { ifAvailable: true }, (lock) => lock && work()),
  };
}

// hold has a name until the page is gone. The page before it in the same window lets go of
// it as it goes; another one that has it never does, and is not waited for.
function hold(name) {
  return new Promise((held) => {
    const forever = () => { held(true); return new Promise(() => {}); };
    navigator.locks.request(name, { signal: AbortSignal.timeout(leaving) }, forever).catch(() => held(false));
  });
}

// post gives the answer, or the text that says why there is none.
async function post(path, body) {
  try {
    const response = await fetch(path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body), signal: AbortSignal.timeout(30000) });
    if (response.ok) return { answer: await response.json() };
    if (response.status === 401) return { text: "This page is not let in any more: press Enter where steeltally station runs, or start it again: that opens the screen. What you scan is kept." };
    return { text: await response.text() };
  } catch {
    return { text: lost };
  }
}
