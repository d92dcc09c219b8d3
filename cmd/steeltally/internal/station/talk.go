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
	Book    inventory.Writer   `json:"book,omitempty"` // what the record is known as that it is about
	Screen  string             `json:"screen"`
	Removed []inventory.Number `json:"removed,omitempty"` // steel that came off last, whose tags are shown
	Bin     []string           `json:"bin,omitempty"`     // scans of the bin
	Trip    string             `json:"trip,omitempty"`
	Trunk   string             `json:"trunk,omitempty"`
	Piece   string             `json:"piece,omitempty"`  // whose history is shown
	Heard   []jig.Heard        `json:"heard,omitempty"`  // of a scanner that is tested
	Alarmed jig.About          `json:"alarmed,omitzero"` // what was scanned when something broke
	Rows    []string           `json:"rows,omitempty"`   // what the rows of a list to choose from stand for

	Turn      int       `json:"turn,omitempty"`      // how many lines were acted on
	AskedTurn int       `json:"askedTurn,omitempty"` // after which of them stood what is asked
	Asker     *waiting  `json:"asker,omitempty"`     // the line that asked it
	Waiting   []waiting `json:"waiting,omitempty"`   // lines that could not be done as they were meant
	Waits     int       `json:"waits,omitempty"`     // how many ever waited
	Doubt     *doubt    `json:"doubt,omitempty"`
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
	atTest   = "scanner"
)

// atJig tells whether the jig is shown, as it is where no other screen is.
func (t talk) atJig() bool {
	return !slices.Contains([]string{atDue, atSpares, atTrip, atBin, atTags, atPiece, atTest}, t.Screen)
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
	Key   string `json:"key"`
	Line  string `json:"line"`
	Typed *typed `json:"typed,omitempty"` // nil: now, before all that is shown
	Talk  talk   `json:"talk"`
}

// answer is what the window shows next.
type answer struct {
	Talk     talk     `json:"talk"`
	Tone     string   `json:"tone,omitempty"`
	Told     string   `json:"told,omitempty"` // HTML, as are the next three
	Main     string   `json:"main"`
	Board    string   `json:"board"`
	Waiting  string   `json:"waiting"`
	Recorded bool     `json:"recorded,omitempty"`
	Mark     string   `json:"mark,omitempty"` // of the record that it shows
	Feed     []string `json:"feed,omitempty"` // the tags of a picture, as lines to send

	answered bool // the line was the answer to what was asked
	dropped  int  // readings of the caliper that were let go
}
