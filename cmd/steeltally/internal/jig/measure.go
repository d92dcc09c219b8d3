package jig

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// askHeights asks for what the caliper shows, where it doesn't type itself.
func (j *Jig) askHeights() error {
	text := "heights left and right, in mm"
	if j.State.oneRunner() {
		text = "its height, in mm"
	} else if _, err := j.meant(); err != nil {
		return err
	}
	if !j.MayAsk {
		return &inventory.BadValue{Reason: "nobody is here to be asked for the heights", Hint: "m 11.1 11.0; m 11.1 of one runner"}
	}
	j.ask(Question{Sort: askTall, Text: text})
	return nil
}

// answerHeights takes as many heights as were asked for. One of two is what a caliper
// with a cable types, and what is none is acted on.
func (j *Jig) answerHeights(text string) (bool, error) {
	fields := strings.Fields(text)
	if len(fields) != j.State.heightsTyped() {
		return text == "", nil
	}
	if _, err := desk.ParseHeights(fields[0]); err != nil {
		return false, nil
	}
	return true, j.measureTyped(fields)
}

// heightsTyped is how many heights a person types: that of one runner, or left and right.
func (s State) heightsTyped() int {
	if s.oneRunner() {
		return 1
	}
	return 2
}

// measureTyped records heights that were typed: m 11.1 11.0, or toe,middle,heel of each;
// m 11.1 of one runner.
func (j *Jig) measureTyped(fields []string) error {
	if want := j.State.heightsTyped(); len(fields) != want {
		if want == 1 {
			return &inventory.BadValue{Reason: "one runner has one height", Hint: "m 11.1, or m toe,middle,heel"}
		}
		return &inventory.BadValue{Reason: "heights are typed left, then right", Hint: "m 11.1 11.0"}
	}
	heights := make([]inventory.Height, len(fields))
	for i, field := range fields {
		height, err := desk.ParseHeights(field)
		if err != nil {
			return err
		}
		heights[i] = height
	}
	return j.measure(heights...)
}

// measure records the height of the one runner that was scanned, or left and right. What
// looks like a slip of the caliper is kept where a person says so.
func (j *Jig) measure(heights ...inventory.Height) error {
	caliper := desk.Caliper{AsRead: j.sure, Doubting: j.MayAsk}
	if len(heights) == 1 {
		caliper.Who, caliper.One = j.State.About.Number.String(), &heights[0]
	} else {
		who, err := j.meant()
		if err != nil {
			return err
		}
		caliper.Who, caliper.Sides = who, inventory.Both[inventory.Height]{Left: &heights[0], Right: &heights[1]}
	}
	done, err := j.Desk.Measure(caliper)
	var slip *deeds.Slip
	if errors.As(err, &slip) && j.MayAsk {
		j.ask(Question{Sort: askSlip, Text: slip.Error() + ". Measure again; or keep it as read? (y/n)", Line: typedAgain(heights)})
		return nil
	}
	return j.done(done, err)
}

// typedAgain is the line that says the same heights.
func typedAgain(heights []inventory.Height) string {
	line := "m"
	for _, h := range heights {
		line += " " + desk.TypeHeights(h)
	}
	return line
}

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
