package templates

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"
)

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
