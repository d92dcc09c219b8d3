package cli

import "io"

// ask writes a question; the answer is typed behind it.
func (v *voice) ask(format string, args ...any) {
	io.WriteString(v.err, v.warned(within(format, args)))
}

// answers reads the lines that a person types.
func (a *app) answers() *lines {
	if a.input == nil {
		a.input = newLines(a.world.Stdin, a.world.Typed)
	}
	return a.input
}
