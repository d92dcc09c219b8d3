package main

import (
	"os"

	"golang.org/x/sys/unix"
)

// terminal is how the terminal was when the program started.
type terminal struct{ before *unix.Termios }

func terminalNow() terminal {
	before, err := unix.IoctlGetTermios(int(os.Stdin.Fd()), unix.TCGETS)
	if err != nil {
		return terminal{}
	}
	return terminal{before}
}

// tabEnds makes a Tab end a line, as Enter does, until the function that it gives is
// called. The terminal keeps its own editing of the line.
func (t terminal) tabEnds() (undo func()) {
	if t.before != nil {
		changed := *t.before
		changed.Cc[unix.VEOL] = '\t'
		t.set(&changed)
	}
	return t.restore
}

func (t terminal) restore() {
	if t.before != nil {
		t.set(t.before)
	}
}

// set is best effort: without it a Tab ends nothing, and all else works.
func (t terminal) set(to *unix.Termios) { unix.IoctlSetTermios(int(os.Stdin.Fd()), unix.TCSETS, to) }
