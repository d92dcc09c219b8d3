package templates

import (
	"bytes"
	"errors"
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"sort"
	"strings"

	"github.com/BurntSushi/toml"
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

// unknownKeys notes each key of a file that nothing reads, wherever it stands, with the
// known key that may have been meant. A file's keys are the fields of what it is read as.
func (p *parser) unknownKeys(meta toml.MetaData, file any, what string) {
	told := map[string]bool{}
	for _, key := range meta.Undecoded() {
		known, of := keysBeside(reflect.TypeOf(file), key, what)
		place := strings.ToLower(key.String())
		if len(known) == 0 || told[place] {
			continue // in a table that is unknown itself, or told already
		}
		told[place] = true
		unknown := key[len(key)-1]
		text := fmt.Sprintf("no such key in a %s: %s; there are %s", of, unknown, strings.Join(known, ", "))
		if near := nearest(unknown, known); near != "" {
			text = fmt.Sprintf("no such key in a %s: %s; is %s meant?", of, unknown, near)
		}
		for _, line := range p.lines.each(place) {
			p.faults = append(p.faults, fault{line, text})
		}
	}
}

// keysBeside lists the keys that could stand where a key stands, and names the table.
func keysBeside(table reflect.Type, key toml.Key, what string) (known []string, of string) {
	of = what
	for _, name := range key[:len(key)-1] {
		field, found := table.FieldByNameFunc(func(f string) bool { return strings.EqualFold(f, name) })
		if !found || field.Type.Kind() != reflect.Slice || field.Type.Elem().Kind() != reflect.Struct {
			return nil, ""
		}
		table, of = field.Type.Elem(), strings.ToLower(name)
	}
	for i := range table.NumField() {
		known = append(known, strings.ToLower(table.Field(i).Name))
	}
	slices.Sort(known)
	return known, of
}

// nearest is the word that may have been meant: a third of its letters may be wrong.
func nearest(word string, known []string) string {
	least, near := (len(word)+1)/3+1, ""
	for _, k := range known {
		if edits := editsBetween(strings.ToLower(word), k); edits < least {
			least, near = edits, k
		}
	}
	return near
}

// editsBetween is how many letters must be put in, left out or changed to make one
// word of another (Levenshtein's distance).
func editsBetween(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		corner := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := corner
			if a[i] != b[j] {
				change++
			}
			corner = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
