package cli

import (
	"fmt"
	"strconv"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory"
)

// given is a flag whose value stays nil until it was given.
type given[T any] struct {
	value **T
	kind  string
	parse func(string) (T, error)
}

func (f given[T]) String() string { return "" }
func (f given[T]) Type() string   { return f.kind }
func (f given[T]) Set(text string) error {
	value, err := f.parse(text)
	if err == nil {
		*f.value = &value
	}
	return err
}

// lengthFlag is a length with its unit.
func lengthFlag(value **geometry.Millimetre) pflag.Value {
	return given[geometry.Millimetre]{value, "length", geometry.ParseLength}
}

// heightFlag is a length for which a bare number means millimetres.
func heightFlag(value **geometry.Millimetre) pflag.Value {
	return given[geometry.Millimetre]{value, "mm", geometry.ParseHeight}
}

// heightsFlag is one height (the middle), or toe, middle and heel.
func heightsFlag(value **inventory.Height) pflag.Value {
	return given[inventory.Height]{value, "mm[,mm,mm]", desk.ParseHeights}
}

// countFlag is a whole number.
func countFlag(value **int) pflag.Value {
	return given[int]{value, "count", func(text string) (int, error) {
		count, err := strconv.Atoi(text)
		if err != nil {
			return 0, fmt.Errorf("%q is not a whole number", text)
		}
		return count, nil
	}}
}

// sweaterFlag is the number of a sweater: who has none is given none.
func sweaterFlag(value *int) pflag.Value {
	return plain[int]{value, "int", func(text string) (int, error) {
		sweater, err := strconv.Atoi(text)
		if err == nil && sweater == 0 {
			err = fmt.Errorf("sweater 0: sweaters go from 1 to %d; leave it out for a player without one", inventory.MostSweater)
		}
		return sweater, err
	}}
}

// textFlag is any text.
func textFlag(value **string) pflag.Value {
	return given[string]{value, "text", func(text string) (string, error) { return text, nil }}
}

// cutFlag is a hollow or a flat-bottomed cut.
func cutFlag(value **inventory.Cut) pflag.Value {
	return given[inventory.Cut]{value, "hollow", inventory.ParseCut}
}

// minutesFlag is a length of time such as 90s or 5m.
func minutesFlag(value **float64) pflag.Value {
	return given[float64]{value, "time", func(text string) (float64, error) {
		took, err := time.ParseDuration(text)
		if err != nil {
			return 0, fmt.Errorf("%q is no length of time; write 90s, 5m or 1h", text)
		}
		return took.Minutes(), nil
	}}
}

// plain is a flag whose value is set in place.
type plain[T any] struct {
	value *T
	kind  string
	parse func(string) (T, error)
}

func (f plain[T]) String() string { return "" }
func (f plain[T]) Type() string   { return f.kind }
func (f plain[T]) Set(text string) error {
	value, err := f.parse(text)
	if err == nil {
		*f.value = value
	}
	return err
}

// profileFlag is a profile of one or several radii.
func profileFlag(value *inventory.Profile) pflag.Value {
	return plain[inventory.Profile]{value, "profile", inventory.ParseProfile}
}

// sideFlag is left or right.
func sideFlag(value *inventory.Side) pflag.Value {
	return plain[inventory.Side]{value, "left|right", inventory.ParseSide}
}

// datesFlag is how dates are meant that can be read in several orders.
func datesFlag(value *inventory.DateOrders) pflag.Value {
	return plain[inventory.DateOrders]{value, "dm|md|my", inventory.ParseDateOrders}
}

// sheetFlags say on what paper a page comes out, and where.
func (a *app) sheetFlags(cmd *cobra.Command, sheet *desk.Sheet) {
	sheet.Stdout, sheet.Stands = a.world.Stdout, a.voice.stands
	fileFlag(cmd, &sheet.File, "pdf", "write it as a PDF to this file")
	cmd.Flags().StringVar(&sheet.Paper, "paper", "a4", "a4 or letter")
	completeWords(cmd, "paper", []string{"a4", "letter"})
}

// wrote tells what came out on paper.
func (a *app) wrote(written desk.Written, err error) error {
	if err != nil {
		return err
	}
	a.voice.notices(written.Notices)
	a.voice.say("%s in %s", desk.SayCount(written.Pages, "page"), sayFile(written.File))
	return a.voice.told(written)
}
