package cli

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"strings"
	"sync/atomic"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// voice is the one place that writes to a person or a program. What was done goes to
// standard output; what was noticed, and errors, to standard error, with a hint line
// of their own. With --json everything is one object on standard output. Whatever a
// record, a scan or a file holds steers no terminal: what nobody can see is shown.
type voice struct {
	out, err io.Writer
	json     *bool
	before   map[string]any // what was done before something went wrong
	standing atomic.Value   // what was done, in words; nil: nothing
}

// say writes a line for a person; a program gets none.
func (v *voice) say(format string, args ...any) {
	if !*v.json {
		fmt.Fprintln(v.out, inventory.VisibleLines(within(format, args)))
	}
}

// notice writes what a person should know, and what to do about it.
func (v *voice) notice(n inventory.Notice) {
	if *v.json {
		return
	}
	fmt.Fprintln(v.err, "note: "+inventory.Visible(n.Text))
	if n.Hint != "" {
		fmt.Fprintln(v.err, "      "+inventory.Visible(n.Hint))
	}
}

// notices writes several.
func (v *voice) notices(all []inventory.Notice) {
	for _, n := range all {
		v.notice(n)
	}
}

// fail writes what went wrong, and what to do next.
func (v *voice) fail(err error) {
	var told *toldError
	if *v.json && errors.As(err, &told) {
		return
	}
	text, hint := err.Error(), hintOf(err)
	if unheard := new(unheardError); *v.json && !errors.As(err, &unheard) {
		object := map[string]any{"error": text, "hint": hint}
		maps.Copy(object, v.before)
		v.object(object)
		return
	}
	fmt.Fprintln(v.err, "steeltally: "+inventory.VisibleLines(text))
	if hint != "" {
		fmt.Fprintln(v.err, "            "+inventory.VisibleLines(hint))
	}
}

// object writes the one JSON object.
func (v *voice) object(o any) error {
	var text bytes.Buffer
	encoder := json.NewEncoder(&text)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(o); err != nil {
		return err
	}
	_, err := io.WriteString(v.out, printedJSON(text.String()))
	return err
}

// recordedEntry is an entry in JSON.
type recordedEntry struct {
	Key   string `json:"event"`
	Kind  string `json:"kind"`
	Words string `json:"words"`
}

// done tells what an action came to; extra are further members of the JSON object.
func (v *voice) done(d desk.Done, extra map[string]any) error {
	if *v.json {
		return v.object(doneObject(d, extra))
	}
	for _, line := range d.Back {
		v.say("taken back: %s", line)
	}
	for _, line := range d.Lines {
		v.say("%s", line)
	}
	v.notices(d.Notices)
	return nil
}

// doneBefore tells a person what was recorded before something else went wrong; a
// program gets that with the error.
func (v *voice) doneBefore(d desk.Done, extra map[string]any) {
	if *v.json {
		v.before = doneObject(d, extra)
		return
	}
	v.done(d, extra)
}

func doneObject(d desk.Done, extra map[string]any) map[string]any {
	recorded := []recordedEntry{}
	for i, e := range d.Events {
		words := ""
		if i < len(d.Lines) {
			words = d.Lines[i]
		}
		recorded = append(recorded, recordedEntry{e.Key.String(), e.Body.Kind(), words})
	}
	object := map[string]any{"recorded": recorded}
	if len(d.Back) > 0 {
		object["taken_back"] = d.Back
	}
	if d.Repeated {
		object["repeated"] = true
	}
	if d.Doubt != nil {
		object["clock_in_doubt"] = map[string]any{"says": d.Doubt.Says, "last_noted": d.Doubt.Last}
	}
	if len(d.Notices) > 0 {
		object["notices"] = d.Notices
	}
	maps.Copy(object, extra)
	return object
}

// table writes headed rows in columns for a person.
func (v *voice) table(head []string, rows [][]string) {
	v.rows(append([][]string{head}, rows...))
}

// rows writes rows in columns for a person.
func (v *voice) rows(rows [][]string) {
	var widths []int
	for r, row := range rows {
		for i, cell := range row {
			cell = inventory.Visible(cell)
			rows[r][i] = cell
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], len([]rune(cell)))
		}
	}
	for _, row := range rows {
		var line strings.Builder
		for i, cell := range row {
			line.WriteString(cell + strings.Repeat(" ", widths[i]-len([]rune(cell))+2))
		}
		v.say("%s", strings.TrimRight(line.String(), " "))
	}
}
