package station

import (
	"crypto/sha256"
	"fmt"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// given works on the book with a line's own key and with what it was given with, so that
// the key is not taken for another line's.
func (s *Station) given(in asked, work func(*desk.Desk) error) error {
	return s.book.use(in.Key, func(d *desk.Desk) error { return work(d.Asking(in.fingerprint())) })
}

// fingerprint is the one of a line and the screen that it was typed on.
func (in asked) fingerprint() string {
	screen := in.Talk.Screen
	if in.Typed != nil {
		screen = in.Typed.Screen
	}
	return fingerprintOf(in.Line, screen)
}

func fingerprintOf(line, screen string) string {
	if (talk{Screen: screen}).atJig() {
		screen = atJig
	}
	sum := sha256.Sum256(fmt.Appendf(nil, "%q%q", screen, inventory.AsScanned(line)))
	return fmt.Sprintf("%x", sum[:8])
}

// usedKey lets a line wait, under a key of its own, whose key stands for another one.
func (s *Station) usedKey(d *desk.Desk, t *talk, in asked, refused error) told {
	line := t.lineOf(in, in.when(s.options.Desk.Now()))
	line.Key = aside(line.Key, line.Fingerprint)
	return s.tellWaits(d, told{}, t.wait(d, in, line, refused.Error()))
}

// aside is a key of its own beside a line's; a line without one has none.
func aside(key, what string) string {
	if key == "" {
		return ""
	}
	return key + "/" + what
}
