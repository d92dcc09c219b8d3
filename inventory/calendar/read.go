package calendar

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"
)

// Read reads a calendar. A time without a zone is one of the zone given, as is a whole
// day. What recurs without an end is followed until an instant. Entries come by start;
// what can't be read is told, and the others stand.
func Read(r io.Reader, zone *time.Location, until time.Time) ([]Entry, []Skipped, error) {
	file, err := ics.ParseCalendar(r)
	if err != nil {
		return nil, nil, fmt.Errorf("this is no iCalendar file: %w", err)
	}
	reader := &reader{zones: zonesOf(file, zone), until: until, cancelled: isCancelled(file)}
	for _, event := range file.Events() {
		if err := reader.event(event); err != nil {
			reader.skipped = append(reader.skipped, Skipped{text(event, ics.ComponentPropertyUniqueId), text(event, ics.ComponentPropertySummary), err.Error()})
		}
		if len(reader.entries) > mostInstances {
			return nil, nil, fmt.Errorf("the file stands for more than %d entries: export a shorter time", mostInstances)
		}
	}
	entries := reader.overridden()
	slices.SortStableFunc(entries, func(a, b Entry) int { return cmp.Or(a.Start.Compare(b.Start), cmp.Compare(a.UID, b.UID)) })
	return entries, reader.skipped, nil
}

// isCancelled tells whether the whole file says that its entries are off.
func isCancelled(file *ics.Calendar) bool {
	return slices.ContainsFunc(file.CalendarProperties, func(p ics.CalendarProperty) bool {
		return strings.EqualFold(p.IANAToken, "METHOD") && strings.EqualFold(p.Value, "CANCEL")
	})
}

// reader gathers the entries of one file.
type reader struct {
	zones     zones
	until     time.Time
	cancelled bool
	entries   []Entry // from rules and single ones
	moved     []Entry // instances that were moved or cancelled by themselves
	skipped   []Skipped
}

// event takes one VEVENT in, with everything that it stands for.
func (r *reader) event(event *ics.VEvent) error {
	entry := Entry{
		UID: text(event, ics.ComponentPropertyUniqueId), Summary: text(event, ics.ComponentPropertySummary),
		Location:  text(event, ics.ComponentPropertyLocation),
		Cancelled: r.cancelled || strings.EqualFold(text(event, ics.ComponentPropertyStatus), "CANCELLED"),
	}
	if entry.UID == "" {
		return errors.New("it has no UID, so that a later change could not be told from another entry")
	}
	entry.Sequence, _ = strconv.Atoi(text(event, ics.ComponentPropertySequence))
	for _, p := range event.GetProperties(ics.ComponentPropertyCategories) {
		entry.Categories = append(entry.Categories, splitList(p.Value)...)
	}
	start, err := r.zones.one(event.GetProperty(ics.ComponentPropertyDtStart))
	if err != nil {
		return fmt.Errorf("its start: %w", err)
	}
	entry.Start, entry.AllDay = start.at, start.day
	if p := event.GetProperty(ics.ComponentPropertyRecurrenceId); p != nil {
		of, err := r.zones.one(p)
		if err != nil {
			return fmt.Errorf("which one of what recurs: %w", err)
		}
		entry.Instance = of.at.UTC()
		r.moved = append(r.moved, entry)
		return nil
	}
	return r.recur(event, entry)
}

// recur adds an entry, or every instance of it.
func (r *reader) recur(event *ics.VEvent, entry Entry) error {
	extra, err := r.zones.all(event.GetProperties(ics.ComponentPropertyRdate))
	if err != nil {
		return fmt.Errorf("its further dates: %w", err)
	}
	without, err := r.zones.all(event.GetProperties(ics.ComponentPropertyExdate))
	if err != nil {
		return fmt.Errorf("its left-out dates: %w", err)
	}
	rules := event.GetProperties(ics.ComponentPropertyRrule)
	if len(rules)+len(extra) == 0 {
		r.entries = append(r.entries, entry)
		return nil
	}
	starts := []time.Time{entry.Start}
	for _, p := range rules {
		rule, err := parseRule(p.Value, entry.Start.Location())
		if err != nil {
			return err
		}
		starts = append(starts, rule.expand(entry.Start, r.until)...)
	}
	for _, one := range extra {
		starts = append(starts, one.at)
	}
	r.entries = append(r.entries, instances(entry, starts, without)...)
	return nil
}

// instances are the entries of some starts, each once, but for those left out.
func instances(entry Entry, starts []time.Time, without []moment) []Entry {
	slices.SortFunc(starts, time.Time.Compare)
	starts = slices.CompactFunc(starts, time.Time.Equal)
	var all []Entry
	for _, start := range starts {
		out := func(m moment) bool { return m.at.Equal(start) || m.day && sameDay(m.at, start) }
		if slices.ContainsFunc(without, out) {
			continue
		}
		one := entry
		one.Start, one.Instance = start, start.UTC()
		all = append(all, one)
	}
	return all
}

func sameDay(a, b time.Time) bool {
	return a.Format(time.DateOnly) == b.In(a.Location()).Format(time.DateOnly)
}

// overridden puts instances that were moved in the place of those of the rule; of two
// words on the same instance the later change counts.
func (r *reader) overridden() []Entry {
	slices.SortStableFunc(r.moved, func(a, b Entry) int { return cmp.Compare(a.Sequence, b.Sequence) })
	entries := r.entries
	for _, moved := range r.moved {
		at := slices.IndexFunc(entries, func(e Entry) bool { return e.UID == moved.UID && e.Instance.Equal(moved.Instance) })
		if at < 0 {
			entries = append(entries, moved)
			continue
		}
		entries[at] = moved
	}
	return entries
}

// text is a property's text; empty where it is not there.
func text(event *ics.VEvent, name ics.ComponentProperty) string {
	p := event.GetProperty(name)
	if p == nil {
		return ""
	}
	return strings.TrimSpace(p.Value)
}

// splitList reads a list of words.
func splitList(value string) []string {
	var words []string
	for word := range strings.SplitSeq(value, ",") {
		if word = strings.TrimSpace(word); word != "" {
			words = append(words, word)
		}
	}
	return words
}
