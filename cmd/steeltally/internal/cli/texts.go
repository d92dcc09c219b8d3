package cli

import "steeltally/cmd/steeltally/internal/desk"

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
	from, name, err := a.open(file)
	if err != nil {
		return nil, err
	}
	defer from.Close()
	return desk.ScanLines(from, name)
}
