package desk

import (
	"encoding/csv"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"steeltally/inventory"
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
