package station

import (
	"slices"

	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/inventory"
)

// talk is what one window of the screen remembers. The window keeps it and sends it with
// each line, so that nothing is lost when the program is started anew.
type talk struct {
	jig.State
	Screen  string             `json:"screen"`
	Removed []inventory.Number `json:"removed,omitempty"` // steel that came off last, whose tags are shown
	Bin     []string           `json:"bin,omitempty"`     // scans of the bin
	Trip    string             `json:"trip,omitempty"`
	Trunk   string             `json:"trunk,omitempty"`
	Piece   string             `json:"piece,omitempty"`  // whose history is shown
	Alarmed jig.About          `json:"alarmed,omitzero"` // what was scanned when something broke
}

// The screens.
const (
	atJig    = "jig"
	atDue    = "due"
	atSpares = "spares"
	atTrip   = "trip"
	atBin    = "bin"
	atTags   = "tags"
	atPiece  = "piece"
)

// atJig tells whether the jig is shown, as it is where no other screen is.
func (t talk) atJig() bool {
	return !slices.Contains([]string{atDue, atSpares, atTrip, atBin, atTags, atPiece}, t.Screen)
}

// The tones of what is told, each with a word, a sign and a sound of its own.
const (
	toneDone  = "done"  // recorded
	toneShown = "shown" // nothing was recorded, nothing is wrong
	toneAsked = "asked" // an answer is needed
	toneLook  = "look"  // something waits for a person
	toneWrong = "wrong" // not recorded
)

// told is what is told of a line, large.
type told struct {
	Tone  string
	Lines []string
	Notes []inventory.Notice
}

// asked is a line with what the window remembers.
type asked struct {
	Key  string `json:"key"`
	Line string `json:"line"`
	Talk talk   `json:"talk"`
}

// answer is what the window shows next.
type answer struct {
	Talk     talk     `json:"talk"`
	Tone     string   `json:"tone,omitempty"`
	Told     string   `json:"told,omitempty"` // HTML, as are the next two
	Main     string   `json:"main"`
	Board    string   `json:"board"`
	Recorded bool     `json:"recorded,omitempty"`
	Mark     string   `json:"mark,omitempty"` // of the record that it shows
	Feed     []string `json:"feed,omitempty"` // the tags of a picture, as lines to send
}
