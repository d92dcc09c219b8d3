package cli

import (
	"os"

	"steeltally/cmd/steeltally/internal/desk"
)

// textsFrom adds the lines of a file to what was given as arguments; "-" is the
// standard input.
func (a *app) textsFrom(file string, args []string) ([]string, error) {
	texts := append([]string(nil), args...)
	switch file {
	case "":
		return texts, nil
	case "-":
		lines, err := desk.ScanLines(a.world.Stdin, "the standard input")
		return append(texts, lines...), err
	}
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	lines, err := desk.ScanLines(f, file)
	return append(texts, lines...), err
}
