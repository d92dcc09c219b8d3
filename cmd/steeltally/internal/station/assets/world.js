// What the queue of lines needs of the browser.

// lost says that nothing answers.
export const lost = "The station does not answer. What you scan is kept, and sent when it is back: steeltally station";

// world is the browser's own.
export function world() {
  return {
    post,
    now: () => Date.now(),
    wait: (ms) => new Promise((r) => setTimeout(r, ms)),
    key: () => crypto.randomUUID(),
    own: sessionStorage,
    all: localStorage,
  };
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
