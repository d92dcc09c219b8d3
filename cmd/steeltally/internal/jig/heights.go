package jig

import (
	"fmt"
	"regexp"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory"
)

// caliperForm is what a caliper with a data cable types: digits with a decimal sign,
// which no sweater and no number of a piece has.
var caliperForm = regexp.MustCompile(`^\+?[0-9]{1,4}[.,][0-9]{1,3}( ?mm)?$`)

// caliperReading is a height that a caliper typed.
func caliperReading(text string) (geometry.Millimetre, bool) {
	if !caliperForm.MatchString(text) {
		return 0, false
	}
	height, err := geometry.ParseHeight(strings.ReplaceAll(strings.TrimPrefix(text, "+"), ",", "."))
	return height, err == nil
}

// Places says of what each reading is, in the order in which they are taken: of one
// runner, or of both of a set. Two readings are the middles, left and right.
func (s State) Places() []string {
	if s.oneRunner() {
		return []string{"toe", "middle", "heel"}
	}
	return []string{"left toe", "left middle", "left heel", "right toe", "right middle", "right heel"}
}

func (s State) oneRunner() bool { return s.About.Number.Kind() == inventory.KindRunner }

// reading keeps what the caliper typed until there are enough.
func (j *Jig) reading(height geometry.Millimetre) error {
	if !j.State.oneRunner() {
		if _, err := j.meant(); err != nil {
			return err
		}
	}
	j.State.Readings = append(j.State.Readings, height)
	if len(j.State.Readings) == len(j.State.Places()) {
		return j.noteReadings()
	}
	j.say(fmt.Sprintf("reading %d: %s", len(j.State.Readings), height))
	return nil
}

// readingsBefore settles the caliper's readings before something else is scanned.
func (j *Jig) readingsBefore() error {
	if len(j.State.Readings) == 0 {
		return nil
	}
	if !j.wholeReadings() {
		j.reply.Notices = append(j.reply.Notices, inventory.Notice{
			Text: desk.SayCount(len(j.State.Readings), "reading") + ", not a whole measurement: not recorded",
			Hint: "scan it again and measure anew",
		})
		j.reply.Dropped, j.State.Readings = len(j.State.Readings), nil
		return nil
	}
	// The line's own key belongs to what is scanned: what comes before it has another.
	// Nothing is asked, because the answer would be about what is scanned.
	scan, mayAsk := j.Desk, j.MayAsk
	j.Desk, j.MayAsk = scan.Aside("readings"), false
	defer func() { j.Desk, j.MayAsk = scan, mayAsk }()
	return j.noteReadings()
}

func (j *Jig) wholeReadings() bool {
	all := len(j.State.Places())
	return len(j.State.Readings) == all || len(j.State.Readings) == all/3
}

// noteReadings records what the caliper typed. Readings that can't be right are let go,
// so that they are taken anew.
func (j *Jig) noteReadings() error {
	if !j.wholeReadings() {
		all := len(j.State.Places())
		return &inventory.BadValue{
			Reason: desk.SayCount(len(j.State.Readings), "reading") + ", not a whole measurement",
			Hint:   fmt.Sprintf("%d are the middle alone, %d are toe, middle and heel; u drops the last one", all/3, all),
		}
	}
	readings := j.State.Readings
	j.State.Readings = nil
	if j.State.oneRunner() {
		return j.measure(heightOf(readings))
	}
	return j.measure(heightOf(readings[:len(readings)/2]), heightOf(readings[len(readings)/2:]))
}

// heightOf is one reading in the middle, or three from toe to heel.
func heightOf(readings []geometry.Millimetre) inventory.Height {
	if len(readings) == 1 {
		return inventory.Height{Middle: &readings[0]}
	}
	return inventory.Height{Toe: &readings[0], Middle: &readings[1], Heel: &readings[2]}
}
