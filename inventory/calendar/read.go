package calendar

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"
)

// Read reads a calendar. A time without a zone is one of the zone given, as is a whole
// day. What recurs without an end is followed until an instant. Entries come by start;
// what can't be read is told, and the others stand. Of what asks for more work than a
// season can, nothing is taken.
func Read(text string, zone *time.Location, until time.Time) ([]Entry, []Skipped, error) {
	if err := checkNesting(text); err != nil {
		return nil, nil, err
	}
	file, err := ics.ParseCalendar(strings.NewReader(text))
	if err != nil {
		return nil, nil, fmt.Errorf("this is no iCalendar file: %w", err)
	}
	work := &steps{}
	reader := &reader{zones: zonesOf(file, zone, work), until: until, cancelled: isCancelled(file), work: work}
	for _, event := range reader.once(file.Events()) {
		err := reader.event(event)
		if errors.Is(err, errTooMuch) {
			return nil, nil, err
		}
		if err != nil {
			reader.skip(event, err.Error(), false)
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
	work      *steps
}

func (r *reader) skip(event *ics.VEvent, reason string, known bool) {
	r.skipped = append(r.skipped, Skipped{text(event, ics.ComponentPropertyUniqueId), text(event, ics.ComponentPropertySummary), reason, known})
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
		more, err := rule.expand(entry.Start, r.until, r.work)
		if err != nil {
			return err
		}
		starts = append(starts, more...)
	}
	if err := r.work.take(len(starts) + len(extra) + len(without)); err != nil {
		return err
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
	out := leftOut(without)
	var all []Entry
	for _, start := range starts {
		if out.has(start) {
			continue
		}
		one := entry
		one.Start, one.Instance = start, start.UTC()
		all = append(all, one)
	}
	return all
}

// exceptions are the instants and the whole days on which something that recurs is not.
type exceptions struct {
	instants map[int64]bool
	days     map[string]bool
	zone     *time.Location // of the days
}

func leftOut(without []moment) exceptions {
	out := exceptions{map[int64]bool{}, map[string]bool{}, time.UTC}
	for _, m := range without {
		out.instants[m.at.Unix()] = true
		if m.day {
			out.zone, out.days[m.at.Format(time.DateOnly)] = m.at.Location(), true
		}
	}
	return out
}

func (e exceptions) has(start time.Time) bool {
	return e.instants[start.Unix()] || len(e.days) > 0 && e.days[start.In(e.zone).Format(time.DateOnly)]
}

// overridden puts instances that were moved in the place of those of the rule; of two
// words on the same instance the later change counts.
func (r *reader) overridden() []Entry {
	slices.SortStableFunc(r.moved, func(a, b Entry) int { return cmp.Compare(a.Sequence, b.Sequence) })
	entries, places := r.entries, map[instance]int{}
	for i, e := range entries {
		places[instance{e.UID, e.Instance.Unix()}] = i
	}
	for _, moved := range r.moved {
		of := instance{moved.UID, moved.Instance.Unix()}
		at, found := places[of]
		if !found {
			places[of] = len(entries)
			entries = append(entries, moved)
			continue
		}
		entries[at] = moved
	}
	return entries
}

// instance is what tells one of what recurs from all others.
type instance struct {
	uid string
	at  int64
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

// mostNested is deeper than a calendar nests: the calendar, a time zone, its summer time.
const mostNested = 8

// checkNesting refuses what nests deeper than any calendar does, before it is followed.
// A line that begins with a blank goes on with the one before.
func checkNesting(text string) error {
	unfolded := strings.NewReplacer("\r\n ", "", "\r\n\t", "", "\n ", "", "\n\t", "").Replace(text)
	depth := 0
	for line := range strings.Lines(unfolded) {
		switch name := strings.ToUpper(line[:min(len(line), len("BEGIN"))]); {
		case name == "BEGIN":
			depth++
		case strings.HasPrefix(name, "END"):
			depth--
		}
		if depth > mostNested {
			return fmt.Errorf("this is no iCalendar file: it nests deeper than %d", mostNested)
		}
	}
	return nil
}
