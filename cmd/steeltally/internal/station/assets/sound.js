// A sound for each tone: what was recorded sounds high and short, a question twice, what
// was not recorded low and long.

const tones = { done: [[1250, 0.09]], shown: [[800, 0.04]], asked: [[700, 0.12], [700, 0.12]], look: [[700, 0.12], [700, 0.12]], wrong: [[190, 0.45]] };
let context;

export function sound(tone) {
  if (!tones[tone]) return;
  try {
    context = context || new AudioContext();
    let at = context.currentTime;
    for (const [pitch, length] of tones[tone]) {
      const oscillator = context.createOscillator();
      oscillator.frequency.value = pitch;
      oscillator.connect(context.destination);
      oscillator.start(at);
      oscillator.stop(at + length);
      at += length + 0.07;
    }
  } catch { /* no loudspeaker: the words and the sign say it, too */ }
}
