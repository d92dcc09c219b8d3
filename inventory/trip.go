package inventory

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// TripNoted adds a trip, or changes its days.
type TripNoted struct {
	Trip string `json:"trip"` // its name
	From When   `json:"from"` // the day of leaving
	To   When   `json:"to"`   // the day of coming back
}

// Kind is the word in the record.
func (*TripNoted) Kind() string { return "trip" }

// Touches names the trip, and the list of trips.
func (b *TripNoted) Touches() []Ref { return []Ref{TripRef(b.Trip), TripsRef} }

func (b *TripNoted) line(t Teller, _ *Event) string {
	zone := ClubOf(t.View).Location()
	return fmt.Sprintf("trip %s, %s to %s", clipName(b.Trip), b.From.SayDay(zone), b.To.SayDay(zone))
}

// Travelling says of players whether they come along on a trip.
type Travelling struct {
	Trip    string   `json:"trip"`
	Players []Number `json:"players"`
	Stay    bool     `json:"stay,omitempty"` // they stay at home
}

// Kind is the word in the record.
func (*Travelling) Kind() string { return "roster" }

// Touches names the trip.
func (b *Travelling) Touches() []Ref { return []Ref{TripRef(b.Trip)} }

func (b *Travelling) line(t Teller, _ *Event) string {
	names := make([]string, len(b.Players))
	for i, n := range b.Players {
		names[i] = t.player(n)
	}
	who := "come along"
	if b.Stay {
		who = "stay at home"
	}
	return clipName(fmt.Sprintf("trip %s, %s: %s", b.Trip, who, strings.Join(names, ", ")))
}

// Trip is one journey of the club: who comes along, what is in which trunk, and which
// trunks were counted out and back.
type Trip struct {
	Event   Key                `json:"event"`
	Name    string             `json:"name"`
	From    When               `json:"from"`
	To      When               `json:"to"`
	Players []Traveller        `json:"players,omitempty"` // of whom something was said
	Pieces  []PackedPiece      `json:"pieces,omitempty"`
	Kits    []PackedKit        `json:"kits,omitempty"`
	Out     Timeline[[]Number] `json:"out,omitempty"`
	Back    Timeline[[]Number] `json:"back,omitempty"`
}

// Traveller is a player of whom it was said whether he comes along.
type Traveller struct {
	Player Number `json:"player"`
	Stays  bool   `json:"stays,omitempty"`
}

// Apply folds one event.
func (t *Trip) Apply(e *Event) {
	switch b := e.Body.(type) {
	case *TripNoted:
		t.Event, t.Name, t.From, t.To = e.Key, b.Trip, b.From, b.To
	case *Travelling:
		for _, n := range b.Players {
			t.say(n, b.Stay)
		}
	case *Packed:
		t.pack(e, b)
	case *Loaded:
		if b.Leg == LegBack {
			t.Back.add(e, b.Trunks)
		} else {
			t.Out.add(e, b.Trunks)
		}
	}
}

func (t *Trip) say(n Number, stays bool) {
	at := slices.IndexFunc(t.Players, func(p Traveller) bool { return p.Player == n })
	if at < 0 {
		at, t.Players = len(t.Players), append(t.Players, Traveller{Player: n})
	}
	t.Players[at].Stays = stays
}

// Entered tells whether the trip was added.
func (t *Trip) Entered() bool { return t.Event != Key{} }

// Comes tells whether a player comes along: what was said of him, else otherwise.
func (t *Trip) Comes(n Number, otherwise bool) bool {
	for _, p := range t.Players {
		if p.Player == n {
			return !p.Stays
		}
	}
	return otherwise
}

// Distinct sorts numbers and leaves out zero and what is there twice.
func Distinct(numbers []Number) []Number {
	slices.Sort(numbers)
	return slices.DeleteFunc(slices.Compact(numbers), func(n Number) bool { return n == 0 })
}

// TripRef names a trip; case and outer blanks make no difference.
func TripRef(name string) Ref {
	return Ref(tripPrefix + strings.ToLower(strings.Join(strings.Fields(name), " ")))
}

// Trips is the list of trips.
type Trips struct {
	Trips []TripLine `json:"trips,omitempty"`
}

// TripLine is a trip in the list.
type TripLine struct {
	Name string `json:"name"`
	From When   `json:"from"`
	To   When   `json:"to"`
}

// Apply folds one event.
func (t *Trips) Apply(e *Event) {
	b, ok := e.Body.(*TripNoted)
	if !ok {
		return
	}
	t.Trips = slices.DeleteFunc(t.Trips, func(line TripLine) bool { return TripRef(line.Name) == TripRef(b.Trip) })
	t.Trips = append(t.Trips, TripLine{b.Trip, b.From, b.To})
	slices.SortStableFunc(t.Trips, func(a, b TripLine) int {
		return cmp.Or(a.From.Compare(b.From), cmp.Compare(a.Name, b.Name))
	})
}

// TripList lists the trips by their day of leaving.
func TripList(v View) []TripLine {
	if trips, ok := v.Entity(TripsRef).(*Trips); ok {
		return trips.Trips
	}
	return nil
}

// FindTrip is a trip by its name.
func FindTrip(v View, name string) (*Trip, error) {
	if trip, ok := v.Entity(TripRef(name)).(*Trip); ok && trip.Entered() {
		return trip, nil
	}
	return nil, Refuse(fmt.Sprintf("there is no trip %s", Clip(name)),
		"steeltally trip add "+Quoted(name)+" --from DATE --to DATE adds it; steeltally trip list shows the others")
}

// KitNoted says what travels that is not steel, and how many of it at least: rivets of
// a length, wheels of a hollow, guards.
type KitNoted struct {
	Kit   string `json:"kit"`
	Least int    `json:"least"` // 0: it travels no more
}

// Kind is the word in the record.
func (*KitNoted) Kind() string { return "kit" }

// Touches names the list of kits.
func (*KitNoted) Touches() []Ref { return []Ref{KitsRef} }

func (b *KitNoted) line(Teller, *Event) string {
	return fmt.Sprintf("kit %s: at least %d", clipName(b.Kit), b.Least)
}

// Kits lists what travels that is not steel, with the least number of each.
type Kits struct {
	Kits []KitNoted `json:"kits,omitempty"`
}

// Apply folds one event.
func (k *Kits) Apply(e *Event) {
	b, ok := e.Body.(*KitNoted)
	if !ok {
		return
	}
	at := slices.IndexFunc(k.Kits, func(kit KitNoted) bool { return SameName(kit.Kit, b.Kit) })
	switch {
	case at < 0 && b.Least > 0:
		k.Kits = append(k.Kits, *b)
	case at >= 0 && b.Least > 0:
		k.Kits[at] = *b
	case at >= 0:
		k.Kits = slices.Delete(k.Kits, at, at+1)
	}
}

// KitList lists the kits in the order in which they were first named.
func KitList(v View) []KitNoted {
	if kits, ok := v.Entity(KitsRef).(*Kits); ok {
		return kits.Kits
	}
	return nil
}

// SameName tells whether two names are the same to a person.
func SameName(a, b string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(a), " "), strings.Join(strings.Fields(b), " "))
}
