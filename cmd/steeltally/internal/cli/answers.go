package cli

import (
	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// answer holds what the shorter answers are made of: each has its one name here, and
// what a verb does not tell is left out.
type answer struct {
	Number  inventory.Number   `json:"number,omitzero"`
	Numbers []inventory.Number `json:"numbers,omitzero"`
	Set     string             `json:"set,omitzero"` // letter
	Sweater *int               `json:"sweater,omitzero"`

	Away      []desk.AwayLine      `json:"away,omitzero"`
	Going     []desk.PieceLine     `json:"going,omitzero"`
	Kits      []inventory.KitNoted `json:"kits,omitzero"`
	Places    []desk.Lying         `json:"places,omitzero"`
	Printers  []desk.Printer       `json:"printers,omitzero"`
	Schedule  []desk.SessionLine   `json:"schedule,omitzero"`
	SetAside  []desk.Aside         `json:"set_aside,omitzero"`
	Sets      []desk.SetLine       `json:"sets,omitzero"`
	Sheets    []desk.SheetLine     `json:"sheets,omitzero"`
	Templates []desk.TemplateLine  `json:"templates,omitzero"`
	Found     []desk.FoundPiece    `json:"pieces,omitzero"`
	Games     []desk.GameLine      `json:"games,omitzero"`
	Trips     []desk.TripLine      `json:"trips,omitzero"`
	Trunks    []desk.StowageLine   `json:"trunks,omitzero"`
	Work      []desk.WorkItem      `json:"work,omitzero"`
	Needs     []desk.NeedLine      `json:"needs,omitzero"`
	Ask       []string             `json:"ask,omitzero"`
	NotHere   []desk.NotHere       `json:"not_here,omitzero"`
	NotTaken  []desk.Unread        `json:"not_taken,omitzero"`
	Notices   []inventory.Notice   `json:"notices,omitzero"`

	Inscription string   `json:"inscription,omitzero"`
	Book        string   `json:"book,omitzero"`
	Calibration string   `json:"calibration,omitzero"`
	Club        string   `json:"club,omitzero"`
	Dropped     *int     `json:"dropped,omitzero"`
	Events      *uint64  `json:"events,omitzero"` // entries of the record
	File        string   `json:"file,omitzero"`
	Files       []string `json:"files,omitzero"`
	HandOver    string   `json:"hand_over,omitzero"` // the file of its sheet
	Printer     string   `json:"printer,omitzero"`
	Removed     string   `json:"removed,omitzero"` // the printer
	Repeated    bool     `json:"repeated,omitzero"`
	Replaces    *bool    `json:"replaces,omitzero"`
	Station     *int     `json:"station,omitzero"`
	Template    string   `json:"template,omitzero"`
	Trip        string   `json:"trip,omitzero"`
}

// playerList are players with what was asked of each.
type playerList[T any] struct {
	Players []T `json:"players"`
}

// meant is what a computed result means.
type meant struct {
	Meaning string `json:"meaning"`
}

// recordedEntry is an entry in JSON.
type recordedEntry struct {
	Key   string `json:"event"`
	Kind  string `json:"kind"`
	Words string `json:"words"`
}

// recordedEntries is what an action came to.
type recordedEntries struct {
	Recorded  []recordedEntry    `json:"recorded"`
	TakenBack []string           `json:"taken_back,omitempty"`
	Repeated  bool               `json:"repeated,omitempty"`
	Doubt     *desk.ClockDoubt   `json:"clock_in_doubt,omitempty"`
	Left      []notLogged        `json:"not_logged,omitzero"`
	Notices   []inventory.Notice `json:"notices,omitempty"`
}

// notLogged is who was meant, too, and why nothing was recorded for him.
type notLogged struct {
	Player  inventory.Number `json:"player"`
	Sweater int              `json:"sweater,omitempty"`
	Name    string           `json:"name,omitempty"`
	Why     string           `json:"why"`
	Hint    string           `json:"hint"`
}

func recorded(d desk.Done) recordedEntries {
	entries := []recordedEntry{}
	for i, e := range d.Events {
		words := ""
		if i < len(d.Lines) {
			words = d.Lines[i]
		}
		entries = append(entries, recordedEntry{e.Key.String(), e.Body.Kind(), words})
	}
	left := make([]notLogged, 0, len(d.Left))
	for _, u := range d.Left {
		left = append(left, notLogged{u.About, u.Sweater, u.Name, u.Cause.Error(), hintOf(u.Cause)})
	}
	if d.Left == nil {
		left = nil // all who were named are logged, or nobody
	}
	return recordedEntries{entries, d.Back, d.Repeated, d.Doubt, left, d.Notices}
}
