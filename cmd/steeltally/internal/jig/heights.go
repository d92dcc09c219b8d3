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
			Text: fmt.Sprintf("%d readings are no whole measurement: they were not recorded", len(j.State.Readings)),
			Hint: "scan it again and measure anew",
		})
		j.State.Readings = nil
		return nil
	}
	// The line's own key belongs to what is scanned: what comes before it has another.
	scan := j.Desk
	j.Desk = scan.Aside("readings")
	defer func() { j.Desk = scan }()
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
			Reason: fmt.Sprintf("%d readings are no whole measurement", len(j.State.Readings)),
			Hint:   fmt.Sprintf("%d are the middle alone, %d are toe, middle and heel; u drops the last one", all/3, all),
		}
	}
	readings := j.State.Readings
	j.State.Readings = nil
	if j.State.oneRunner() {
		height := heightOf(readings)
		return j.done(j.Desk.Measure(desk.Caliper{Who: j.State.About.Number.String(), One: &height}))
	}
	left, right := heightOf(readings[:len(readings)/2]), heightOf(readings[len(readings)/2:])
	return j.measure(left, right)
}

// heightOf is one reading in the middle, or three from toe to heel.
func heightOf(readings []geometry.Millimetre) inventory.Height {
	if len(readings) == 1 {
		return inventory.Height{Middle: &readings[0]}
	}
	return inventory.Height{Toe: &readings[0], Middle: &readings[1], Heel: &readings[2]}
}

// askHeights asks for what the caliper shows, where it doesn't type itself.
func (j *Jig) askHeights() error {
	if _, err := j.meant(); err != nil {
		return err
	}
	j.ask(Question{Sort: askTall, Text: "heights left and right, in mm"})
	return nil
}

// answerHeights takes two heights. One is what a caliper with a cable types, and what is
// none is acted on.
func (j *Jig) answerHeights(text string) (bool, error) {
	fields := strings.Fields(text)
	if len(fields) != 2 {
		return text == "", nil
	}
	if _, err := desk.ParseHeights(fields[0]); err != nil {
		return false, nil
	}
	return true, j.measureTyped(fields)
}

// measureTyped records heights that were typed: m 11.1 11.0, or toe,middle,heel of each.
func (j *Jig) measureTyped(fields []string) error {
	if len(fields) != 2 {
		return &inventory.BadValue{Reason: "heights are typed left, then right", Hint: "m 11.1 11.0"}
	}
	var heights [2]inventory.Height
	for i, field := range fields {
		height, err := desk.ParseHeights(field)
		if err != nil {
			return err
		}
		heights[i] = height
	}
	return j.measure(heights[0], heights[1])
}

func (j *Jig) measure(left, right inventory.Height) error {
	who, err := j.meant()
	if err != nil {
		return err
	}
	return j.done(j.Desk.Measure(desk.Caliper{Who: who, Sides: inventory.Both[inventory.Height]{Left: &left, Right: &right}}))
}
