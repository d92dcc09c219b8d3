package cli

import (
	"os"

	"steeltally/cmd/steeltally/internal/desk"
)

// textsFrom adds the lines of a file to what was given as arguments; "-" is the
// standard input.
func (a *app) textsFrom(file string, args []string) ([]string, error) {
	texts := append([]string(nil), args...)
	if file == "" {
		return texts, nil
	}
	lines, err := a.linesFrom(file)
	a.heard = append(a.heard, lines...)
	return append(texts, lines...), err
}

func (a *app) linesFrom(file string) ([]string, error) {
	if file == "-" {
		return desk.ScanLines(a.world.Stdin, "the standard input")
	}
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return desk.ScanLines(f, file)
}
