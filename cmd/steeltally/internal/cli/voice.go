package cli

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"sync/atomic"

	"github.com/spf13/cobra"

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
	before   []any         // what was done before something went wrong
	standing atomic.Value  // what was done, in words; nil: nothing
	desk     *desk.Desk    // knows what nobody may skate on; nil: no book is open
	opened   *desk.Options // that was open last; nil: none was
}

// say writes a line for a person; a program gets none. Where it shows the number of
// something that nobody may skate on, it says so.
func (v *voice) say(format string, args ...any) { v.write(v.warned(within(format, args))) }

// past writes a line that tells what was, as it was.
func (v *voice) past(format string, args ...any) { v.write(within(format, args)) }

func (v *voice) write(text string) {
	if !*v.json {
		fmt.Fprintln(v.out, inventory.VisibleLines(text))
	}
}

func (v *voice) warned(text string) string {
	if !*v.json {
		v.look(text, func(d *desk.Desk) { text = d.Warned(text) })
	}
	return text
}

// look asks the book about a text that shows the number of a piece; one that was let go of is
// opened once more.
func (v *voice) look(text string, use func(*desk.Desk)) {
	switch {
	case !desk.ShowsPiece(text):
	case v.desk != nil:
		use(v.desk)
	case v.opened != nil:
		if d, err := desk.OpenToRead(*v.opened); err == nil {
			defer d.Close()
			use(d)
		}
	}
}

// notice writes what a person should know, and what to do about it.
func (v *voice) notice(n inventory.Notice) {
	if *v.json {
		return
	}
	fmt.Fprintln(v.err, "note: "+inventory.Visible(v.warned(n.Text)))
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
		v.told(append([]any{failure{text, hint}}, v.before...)...)
		return
	}
	fmt.Fprintln(v.err, "steeltally: "+inventory.VisibleLines(v.warned(text)))
	if hint != "" {
		fmt.Fprintln(v.err, "            "+inventory.VisibleLines(hint))
	}
}

// failure is what went wrong, for programs.
type failure struct {
	Error string `json:"error"`
	Hint  string `json:"hint"`
}

// told tells a program what was asked, as the one object with the members of all its
// parts; lengths of steel to a thousandth of a millimetre, since no caliper tells more.
func (v *voice) told(parts ...any) error { return v.object(thousandths, parts...) }

// computed tells a program what a formula came to, to its last digit, and what that means.
func (v *voice) computed(result any, meaning string) error {
	return v.object(func(object string) string { return object }, result, meant{meaning})
}

func (v *voice) object(finish func(string) string, parts ...any) error {
	if !*v.json {
		return nil
	}
	text, err := joined(parts)
	if err != nil {
		return err
	}
	v.look(text, func(d *desk.Desk) {
		unsafe := d.Unsafe()
		text, err = warned(text, unsafe.In), unsafe.Err
	})
	if err != nil {
		return err
	}
	_, err = io.WriteString(v.out, printedJSON(finish(text)))
	return err
}

// tabled tells a person a list as a table, and a program the object that it is in.
func tabled[T any](v *voice, object any, lines []T, head []string, row func(T) []string) error {
	var rows [][]string
	for _, line := range lines {
		rows = append(rows, row(line))
	}
	v.table(head, rows)
	return v.told(object)
}

// done tells what an action came to; more are further members of the JSON object.
func (v *voice) done(d desk.Done, more ...any) error {
	if *v.json {
		return v.told(append([]any{recorded(d)}, more...)...)
	}
	for _, line := range d.Back {
		v.say("taken back: %s", line)
	}
	for _, line := range d.Lines {
		v.say("%s", line)
	}
	for _, left := range d.Left {
		v.notice(inventory.Notice{Text: "not logged: " + left.Whose() + ": " + left.Cause.Error(), Hint: hintOf(left.Cause)})
	}
	v.notices(d.Notices)
	return nil
}

// doneBefore tells a person what was recorded before something else went wrong; a
// program gets that with the error.
func (v *voice) doneBefore(d desk.Done, more ...any) {
	if *v.json {
		v.before = append([]any{recorded(d)}, more...)
		return
	}
	v.done(d)
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

// sayUnworked tells of whom something could not be worked out; the others' lines stand.
func (a *app) sayUnworked(list []inventory.Unworked) {
	if len(list) == 0 {
		return
	}
	a.voice.say("COULD NOT BE WORKED OUT")
	for _, u := range list {
		a.voice.say("%s: %s", u.Whose(), u.Say())
		a.voice.say("      %s", desk.UnworkedHint(u))
	}
	a.voice.say("")
}

// unworkedTold is a player of whom something could not be worked out, for programs.
type unworkedTold struct {
	Error   string           `json:"error"`
	Hint    string           `json:"hint"`
	Name    string           `json:"name"`
	Player  inventory.Number `json:"player"`
	Sweater int              `json:"sweater"`
}

func unworked(list []inventory.Unworked) []any {
	told := []any{}
	for _, u := range list {
		told = append(told, unworkedTold{u.Say(), desk.UnworkedHint(u), u.Name, u.About, u.Sweater})
	}
	return told
}

// did says what an action came to, or gives its error on; more are further members of the
// JSON object.
func (a *app) did(done desk.Done, err error, more ...any) error {
	if err != nil {
		return err
	}
	return a.voice.done(done, more...)
}

// act carries out one action and says what came of it.
func (a *app) act(action func(*desk.Desk) (desk.Done, error)) error {
	return a.withDesk(func(d *desk.Desk) error {
		done, err := action(d)
		return a.did(done, err)
	})
}

// actOn carries out an action on a player who may have to be asked for.
func (a *app) actOn(who string, action func(d *desk.Desk, who string) (desk.Done, error)) error {
	return a.act(func(d *desk.Desk) (desk.Done, error) {
		who, err := a.playerToAct(d, who)
		if err != nil {
			return desk.Done{}, err
		}
		return action(d, who)
	})
}

// run is what a verb does.
type run = func(*cobra.Command, []string) error

// acts carries out one action and says what came of it.
func (a *app) acts(action func(d *desk.Desk, args []string) (desk.Done, error)) run {
	return func(_ *cobra.Command, args []string) error {
		return a.act(func(d *desk.Desk) (desk.Done, error) { return action(d, args) })
	}
}

// actsOn carries out an action on the player who is named first.
func (a *app) actsOn(action func(d *desk.Desk, who string, args []string) (desk.Done, error)) run {
	return func(_ *cobra.Command, args []string) error {
		return a.actOn(args[0], func(d *desk.Desk, who string) (desk.Done, error) { return action(d, who, args) })
	}
}

// uses opens the book for an action that is told otherwise than by what it came to.
func (a *app) uses(use func(d *desk.Desk, args []string) error) run {
	return func(_ *cobra.Command, args []string) error {
		return a.withDesk(func(d *desk.Desk) error { return use(d, args) })
	}
}

// reads opens the book for a question.
func (a *app) reads(ask func(d *desk.Desk, args []string) error) run {
	return func(_ *cobra.Command, args []string) error {
		return a.reading(func(d *desk.Desk) error { return ask(d, args) })
	}
}

// parent is a verb with others below it.
func parent(cmd *cobra.Command, below ...*cobra.Command) *cobra.Command {
	cmd.AddCommand(below...)
	return cmd
}
