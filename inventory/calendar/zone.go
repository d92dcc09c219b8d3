package calendar

import (
	"fmt"
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
