package cli

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"strings"
)

// longestScan is more than any symbol on a tag carries.
const longestScan = 64 * 1024

// textsFrom adds the lines of a file to what was given as arguments; "-" is the
// standard input. Empty lines and what stands behind # is left out.
func (a *app) textsFrom(file string, args []string) ([]string, error) {
	texts := append([]string(nil), args...)
	if file == "" {
		return texts, nil
	}
	lines, err := a.linesOf(file)
	for _, line := range lines {
		line, _, _ = strings.Cut(line, "#")
		if line = strings.TrimSpace(line); line != "" {
			texts = append(texts, line)
		}
	}
	return texts, err
}

// linesOf reads a file, or the standard input.
func (a *app) linesOf(file string) ([]string, error) {
	var source io.Reader = a.world.Stdin
	if file != "-" {
		f, err := os.Open(file)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		source = f
	}
	var lines []string
	scanner := bufio.NewScanner(source)
	scanner.Buffer(nil, longestScan)
	for scanner.Scan() {
		lines = append(lines, scanner.Text())
	}
	if err := scanner.Err(); err != nil {
		return nil, fmt.Errorf("%s can't be read as lines of text: %w", file, err)
	}
	return lines, nil
}
