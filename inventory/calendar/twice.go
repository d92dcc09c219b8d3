package calendar

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	ics "github.com/arran4/golang-ical"
)

// namesakes are the entries of a file with one UID, of one instance.
type namesakes struct {
	last    *ics.VEvent // that was changed last
	unclear bool        // another was changed as often, and says something else
}

// once leaves out what the file has twice under one UID, and says so: of several the one
// that was changed last stays. Where that can't be told, none does, since the next file
// could not say which of them it means.
func (r *reader) once(events []*ics.VEvent) []*ics.VEvent {
	alike := map[string]*namesakes{}
	for _, event := range events {
		name := nameOf(event)
		if alike[name] == nil {
			alike[name] = &namesakes{last: event}
			continue
		}
		alike[name].add(event)
	}
	return slices.DeleteFunc(slices.Clone(events), func(event *ics.VEvent) bool {
		of := alike[nameOf(event)]
		reason := "it is in the file twice under one UID"
		switch {
		case text(event, ics.ComponentPropertyUniqueId) == "":
			return false
		case sequenceOf(event) < sequenceOf(of.last):
			reason = "its UID is in the file twice, and the other entry was changed later"
		case of.unclear:
			reason = "its UID is in the file twice, so that a later change could not be told from one of the other entry"
		case event == of.last:
			return false
		}
		r.skip(event, reason, !of.unclear)
		return true
	})
}

func (n *namesakes) add(event *ics.VEvent) {
	switch cmp.Compare(sequenceOf(event), sequenceOf(n.last)) {
	case 1:
		*n = namesakes{last: event}
	case 0:
		n.unclear = n.unclear || meant(event) != meant(n.last)
	}
}

// nameOf is what the file tells an entry from others by.
func nameOf(event *ics.VEvent) string {
	return text(event, ics.ComponentPropertyUniqueId) + "\n" + text(event, ics.ComponentPropertyRecurrenceId)
}

func sequenceOf(event *ics.VEvent) int {
	sequence, _ := strconv.Atoi(text(event, ics.ComponentPropertySequence))
	return sequence
}

// meant is what an entry says of what matters here.
func meant(event *ics.VEvent) string {
	var all []string
	for _, name := range []ics.ComponentProperty{
		ics.ComponentPropertyDtStart, ics.ComponentPropertySummary, ics.ComponentPropertyLocation, ics.ComponentPropertyStatus,
		ics.ComponentPropertyRrule, ics.ComponentPropertyRdate, ics.ComponentPropertyExdate, ics.ComponentPropertyCategories,
	} {
		for _, p := range event.GetProperties(name) {
			all = append(all, string(name), parameter(p, "TZID"), p.Value)
		}
	}
	return strings.Join(all, "\n")
}
