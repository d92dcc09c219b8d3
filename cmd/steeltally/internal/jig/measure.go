package jig

import (
	"errors"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
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
