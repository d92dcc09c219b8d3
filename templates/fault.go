package templates

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"sort"
	"strings"
)

// fault is one mistake in a file, with its line (0 if it has none).
type fault struct {
	line int
	text string
}

// wrong notes a mistake in the value of a key such as "text[2].box".
func (p *parser) wrong(key, format string, values ...any) {
	p.faults = append(p.faults, fault{line: p.lines.of(key), text: fmt.Sprintf(format, values...)})
}

// err is all mistakes in the order of their lines, or nil.
func (p *parser) err() error {
	if len(p.faults) == 0 {
		return nil
	}
	sort.SliceStable(p.faults, func(i, j int) bool { return p.faults[i].line < p.faults[j].line })
	var lines []string
	for _, f := range p.faults {
		lines = append(lines, fmt.Sprintf("%s, line %d: %s", p.name, f.line, f.text))
	}
	return errors.New(strings.Join(lines, "\n"))
}

// lineIndex knows on which line of a file each key stands.
type lineIndex map[string]int

var (
	tableHeader = regexp.MustCompile(`^\s*\[\[?\s*([A-Za-z0-9_-]+)\s*\]\]?`)
	keyAtStart  = regexp.MustCompile(`^\s*([A-Za-z0-9_-]+)\s*=`)
)

// indexLines finds the tables and keys of a file. The second "[[text]]" is "text[1]".
func indexLines(source []byte) lineIndex {
	index := lineIndex{}
	counts := map[string]int{}
	table := ""
	for i, line := range bytes.Split(source, []byte("\n")) {
		if m := tableHeader.FindSubmatch(line); m != nil {
			name := strings.ToLower(string(m[1]))
			table = fmt.Sprintf("%s[%d]", name, counts[name])
			counts[name]++
			index[table] = i + 1
		} else if m := keyAtStart.FindSubmatch(line); m != nil {
			key := strings.TrimPrefix(table+"."+strings.ToLower(string(m[1])), ".")
			if _, known := index[key]; !known {
				index[key] = i + 1
			}
		}
	}
	return index
}

// of is the line of a key; a key that is missing has the line of its table, and one
// without a table the first line.
func (l lineIndex) of(key string) int {
	if line, known := l[key]; known {
		return line
	}
	table, _, _ := strings.Cut(key, ".")
	if line, known := l[table]; known {
		return line
	}
	return 1
}

// each is every line of a key without its table's number, as the TOML reader gives it
// for one that it does not know: "text.colour" may stand in several [[text]].
func (l lineIndex) each(key string) []int {
	table, field, nested := strings.Cut(key, ".")
	var lines []int
	for i := 0; ; i++ {
		numbered := fmt.Sprintf("%s[%d]", table, i)
		if _, known := l[numbered]; !known {
			break
		}
		if nested {
			numbered += "." + field
		}
		if line, known := l[numbered]; known {
			lines = append(lines, line)
		}
	}
	if len(lines) == 0 {
		return []int{l.of(key)}
	}
	return lines
}
