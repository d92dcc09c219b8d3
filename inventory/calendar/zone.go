package calendar

import (
	"fmt"
	"slices"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"
)

// moment is a time or a whole day as a file gives it.
type moment struct {
	at  time.Time
	day bool
}

// zones turns a file's times into instants.
type zones struct {
	own     *time.Location
	defined map[string]*definedZone
}

func zonesOf(file *ics.Calendar, own *time.Location, work *steps) zones {
	z := zones{own, map[string]*definedZone{}}
	for _, component := range file.Components {
		if zone, ok := component.(*ics.VTimezone); ok {
			name := zone.GetProperty(ics.ComponentPropertyTzid)
			if name != nil {
				z.defined[name.Value] = defineZone(zone, work)
			}
		}
	}
	return z
}

// one reads a property with one time.
func (z zones) one(p *ics.IANAProperty) (moment, error) {
	if p == nil {
		return moment{}, fmt.Errorf("it is missing")
	}
	return z.moment(p.Value, parameter(p, "TZID"))
}

// all reads properties with lists of times; of a period it is the start.
func (z zones) all(properties []*ics.IANAProperty) ([]moment, error) {
	var all []moment
	for _, p := range properties {
		for value := range strings.SplitSeq(p.Value, ",") {
			start, _, _ := strings.Cut(value, "/")
			one, err := z.moment(start, parameter(p, "TZID"))
			if err != nil {
				return nil, err
			}
			all = append(all, one)
		}
	}
	return all, nil
}

func parameter(p *ics.IANAProperty, name string) string {
	for key, values := range p.ICalParameters {
		if strings.EqualFold(key, name) && len(values) > 0 {
			return values[0]
		}
	}
	return ""
}

const (
	dayLayout   = "20060102"
	localLayout = "20060102T150405"
	utcLayout   = "20060102T150405Z"
)

// moment reads one time: in UTC, of a zone, or of no zone, which is the own one.
func (z zones) moment(value, zone string) (moment, error) {
	value = strings.TrimSpace(value)
	if at, err := time.Parse(utcLayout, value); err == nil {
		return moment{at: at}, nil
	}
	if day, err := time.ParseInLocation(dayLayout, value, z.own); err == nil {
		return moment{day, true}, nil
	}
	local, err := time.Parse(localLayout, value)
	if err != nil {
		return moment{}, fmt.Errorf("%q is no time", value)
	}
	location, err := z.location(zone, local)
	if err != nil {
		return moment{}, err
	}
	return moment{at: inLocation(local, location)}, nil
}

// inLocation is the same reading of a clock in another zone.
func inLocation(local time.Time, location *time.Location) time.Time {
	return time.Date(local.Year(), local.Month(), local.Day(), local.Hour(), local.Minute(), local.Second(), 0, location)
}

// location is the zone of a name: one that is known everywhere, else what the file
// itself says of it.
func (z zones) location(name string, local time.Time) (*time.Location, error) {
	if name == "" {
		return z.own, nil
	}
	if location, err := time.LoadLocation(name); err == nil && name != "Local" && strings.Contains(name, "/") {
		return location, nil
	}
	if zone := z.defined[name]; zone != nil && len(zone.changes) > 0 {
		return zone.at(name, local)
	}
	return nil, fmt.Errorf("time zone %q is not known, and the file does not say what it is", name)
}

// definedZone is a zone as a file defines it.
type definedZone struct {
	changes []change
	work    *steps
	onsets  []onset // in order, until the end of a year
	until   time.Time
}

// onset is one change of the clocks.
type onset struct {
	when   time.Time // by the clocks before it
	offset int       // seconds east of UTC from then on
}

// change is one sort of change of the clocks, such as that to summer time.
type change struct {
	start    time.Time // the first one, as clocks read then
	rules    []rule
	extra    []time.Time
	from, to int // seconds east of UTC, before and after
}

func defineZone(zone *ics.VTimezone, work *steps) *definedZone {
	defined := &definedZone{work: work}
	for _, sub := range zone.SubComponents() {
		var base *ics.ComponentBase
		switch sub := sub.(type) {
		case *ics.Standard:
			base = &sub.ComponentBase
		case *ics.Daylight:
			base = &sub.ComponentBase
		default:
			continue
		}
		if one, ok := changeOf(base); ok {
			defined.changes = append(defined.changes, one)
		}
	}
	return defined
}

// changeOf reads one sort of change; one that can't be read is left out.
func changeOf(base *ics.ComponentBase) (change, bool) {
	start, from, to := base.GetProperty(ics.ComponentPropertyDtStart), base.GetProperty("TZOFFSETFROM"), base.GetProperty("TZOFFSETTO")
	if start == nil || from == nil || to == nil {
		return change{}, false
	}
	at, err := time.Parse(localLayout, start.Value)
	before, okBefore := parseOffset(from.Value)
	after, okAfter := parseOffset(to.Value)
	if err != nil || !okBefore || !okAfter {
		return change{}, false
	}
	c := change{start: at, from: before, to: after}
	for _, p := range base.GetProperties(ics.ComponentPropertyRrule) {
		rule, err := parseRule(p.Value, time.UTC)
		if err != nil {
			return change{}, false
		}
		if !rule.until.IsZero() { // given in UTC; the rest goes by the clocks before the change
			rule.until = rule.until.Add(time.Duration(before) * time.Second)
		}
		c.rules = append(c.rules, rule)
	}
	for _, p := range base.GetProperties(ics.ComponentPropertyRdate) {
		for value := range strings.SplitSeq(p.Value, ",") {
			if extra, err := time.Parse(localLayout, value); err == nil {
				c.extra = append(c.extra, extra)
			}
		}
	}
	return c, true
}

// parseOffset reads +0100 or -053000 as seconds.
func parseOffset(text string) (int, bool) {
	text = strings.TrimSpace(text)
	if len(text) != 5 && len(text) != 7 {
		return 0, false
	}
	value := 0
	for _, digit := range text[1:] {
		if digit < '0' || digit > '9' {
			return 0, false
		}
		value = value*10 + int(digit-'0')
	}
	if len(text) == 5 {
		value *= 100
	}
	seconds := value/10000*3600 + value/100%100*60 + value%100
	if text[0] == '-' {
		seconds = -seconds
	}
	return seconds, true
}

// at is the zone as it holds at a reading of its clocks: after the latest change before.
func (z *definedZone) at(name string, local time.Time) (*time.Location, error) {
	if local.After(z.until) {
		if err := z.follow(time.Date(local.Year()+yearsAhead, 1, 1, 0, 0, 0, 0, time.UTC)); err != nil {
			return nil, err
		}
	}
	if err := z.work.take(len(z.changes)); err != nil {
		return nil, err
	}
	offset := slices.MinFunc(z.changes, func(a, b change) int { return a.start.Compare(b.start) }).from
	after, _ := slices.BinarySearchFunc(z.onsets, local, func(o onset, local time.Time) int {
		if o.when.After(local) {
			return 1
		}
		return -1
	})
	if after > 0 {
		offset = z.onsets[after-1].offset
	}
	return time.FixedZone(name, offset), nil
}

// yearsAhead is how many years of changes are listed at once.
const yearsAhead = 5

// follow lists all changes of the clocks until a reading of them.
func (z *definedZone) follow(until time.Time) error {
	z.onsets, z.until = nil, until
	for _, c := range z.changes {
		all := append([]time.Time{c.start}, c.extra...)
		for _, rule := range c.rules {
			more, err := rule.expand(c.start, until, z.work)
			if err != nil {
				return err
			}
			all = append(all, more...)
		}
		if err := z.work.take(len(all)); err != nil {
			return err
		}
		for _, when := range all {
			z.onsets = append(z.onsets, onset{when, c.to})
		}
	}
	slices.SortStableFunc(z.onsets, func(a, b onset) int { return a.when.Compare(b.when) })
	return nil
}
