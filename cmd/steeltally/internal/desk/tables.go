package desk

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// A table of the record, for spreadsheets.
type table struct {
	name string
	head []string
	rows func(v inventory.View, at time.Time, add func(cells ...string))
}

func tables() []table {
	return []table{
		{"pieces", []string{"number", "kind", "model", "size_mm", "side", "state", "player", "set", "height_new_mm", "height_last_mm", "grinds", "passes", "grinds_of_unknown_passes", "place"}, pieceRows},
		{"grinds", []string{"runner", "happened", "work", "passes", "player", "set", "hollow"}, grindRows},
		{"heights", []string{"runner", "happened", "reference", "toe_mm", "middle_mm", "heel_mm"}, heightRows},
		{"damages", []string{"piece", "happened", "mode", "zone", "face", "cause", "found", "do_not_skate", "shifts_missed", "minutes", "player"}, damageRows},
	}
}

// ExportTables writes the record as tables of comma-separated values into a folder,
// which is made where it is not there, and names the files.
func (d *Desk) ExportTables(dir string) ([]string, error) {
	if err := os.Mkdir(dir, 0o700); err != nil && !errors.Is(err, fs.ErrExist) {
		return nil, err
	}
	var files []string
	for _, t := range tables() {
		path := filepath.Join(dir, t.name+".csv")
		if err := d.options.outlet(path).write(func(w io.Writer) error { return d.writeTable(w, t) }); err != nil {
			return files, err
		}
		files = append(files, path)
	}
	d.options.stands("the tables are written: they are in %s", dir)
	return files, nil
}

func (d *Desk) writeTable(w io.Writer, t table) error {
	out := csv.NewWriter(w)
	if err := out.Write(append(t.head, "do_not_skate_now")); err != nil {
		return err
	}
	unsafe := d.Unsafe()
	err := d.ask(func(v inventory.View, at time.Time) error {
		t.rows(v, at, func(cells ...string) {
			for i := range cells {
				cells[i] = plainCell(cells[i])
			}
			out.Write(append(cells, strconv.FormatBool(unsafe.In(cells[0])))) // its error is kept and given by Error
		})
		return nil
	})
	out.Flush()
	return errors.Join(err, out.Error())
}

// plainCell keeps a spreadsheet from taking a name for a formula: OWASP's advice on
// CSV injection, an apostrophe in front. Numbers of ours never begin so.
func plainCell(cell string) string {
	if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
		return "'" + cell
	}
	return cell
}

func pieceRows(v inventory.View, at time.Time, add func(...string)) {
	for n, entity := range eachOf(v, inventory.KindRunner) {
		r := entity.(*inventory.Runner)
		wear, membership := r.WearAt(at), r.SetAt(at)
		add(n.String(), "runner", r.Model, strconv.Itoa(r.Size), string(r.SideAt(at)), string(standing.StateOf(v, n, at)), ownerOf(v, membership),
			membership.String(), cellOf(wear.HeightNew), cellOf(wear.HeightLast), strconv.Itoa(wear.Grinds), strconv.Itoa(wear.Passes),
			strconv.Itoa(wear.UnknownWorks), standing.PlaceOf(v, n, at).String())
	}
	for n, entity := range eachOf(v, inventory.KindHolder) {
		h := entity.(*inventory.Holder)
		player := ""
		if pair, err := inventory.FindPair(v, h.BootAt(at).Pair); err == nil {
			player = pair.Player.String()
		}
		add(n.String(), "holder", h.Model, strconv.Itoa(h.Size), string(h.Side), string(standing.StateOf(v, n, at)), player, "", "", "", "", "", "", standing.PlaceOf(v, n, at).String())
	}
}

// ownerOf is the number of the player that a set belongs to.
func ownerOf(v inventory.View, set inventory.Number) string {
	s, err := inventory.FindSet(v, set)
	if set == 0 || err != nil {
		return ""
	}
	return s.Player.String()
}

func grindRows(v inventory.View, at time.Time, add func(...string)) {
	for n, entity := range eachOf(v, inventory.KindRunner) {
		for _, work := range entity.(*inventory.Runner).Works.Until(at) {
			passes, hollow := "", ""
			if work.Value.Passes != nil {
				passes = strconv.Itoa(*work.Value.Passes)
			}
			if work.Value.Hollow != nil {
				hollow = work.Value.Hollow.String()
			}
			add(n.String(), whenCell(work.When), string(work.Value.Kind), passes, work.Value.Player.String(), work.Value.Set.String(), hollow)
		}
	}
}

func heightRows(v inventory.View, at time.Time, add func(...string)) {
	for n, entity := range eachOf(v, inventory.KindRunner) {
		for _, reading := range entity.(*inventory.Runner).Readings.Until(at) {
			r := reading.Value
			add(n.String(), whenCell(reading.When), string(r.Reference), cellOf(r.Toe), cellOf(r.Middle), cellOf(r.Heel))
		}
	}
}

func damageRows(v inventory.View, at time.Time, add func(...string)) {
	for _, kind := range []inventory.Kind{inventory.KindRunner, inventory.KindHolder, inventory.KindPair} {
		for n, entity := range eachOf(v, kind) {
			for _, damage := range marksOf(entity).Damages.Until(at) {
				b := damage.Value
				add(n.String(), whenCell(damage.When), string(b.Mode), string(b.Zone), b.Face, b.Cause, b.Found, strconv.FormatBool(b.Unsafe),
					optional(b.ShiftsMissed), optional(b.Minutes), b.Player.String())
			}
		}
	}
}

// marksOf is what any piece carries.
func marksOf(entity inventory.Entity) *inventory.Marks {
	switch e := entity.(type) {
	case *inventory.Runner:
		return &e.Marks
	case *inventory.Holder:
		return &e.Marks
	case *inventory.Pair:
		return &e.Marks
	}
	return &inventory.Marks{}
}

// whenCell writes a time as the journal does, without loss.
func whenCell(when inventory.When) string {
	text, err := when.MarshalText()
	if err != nil {
		return ""
	}
	return string(text)
}

func cellOf(height *geometry.Millimetre) string {
	if height == nil {
		return ""
	}
	return strconv.FormatFloat(float64(*height), 'f', 2, 64)
}

func optional[T any](value *T) string {
	if value == nil {
		return ""
	}
	return fmt.Sprint(*value)
}
