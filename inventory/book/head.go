package book

import (
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"

	"steeltally/inventory"
)

// format is the version of the folder's form.
const format = 1

// head is what is said of the book as a whole. It changes with every transaction.
type head struct {
	Format   int              `json:"format"`
	Fold     int              `json:"fold"`    // version of the fold that made the states
	Writer   inventory.Writer `json:"writer"`  // who writes here
	Machine  string           `json:"machine"` // where the writer writes
	Events   uint64           `json:"events"`
	Last     order            `json:"last"`           // of all events the last in fold order
	Folded   order            `json:"folded"`         // up to here the stored states and trails go
	Journal  int64            `json:"journal"`        // how many bytes of the journal are in here
	LastLine int64            `json:"last_line"`      // where the last line of these begins
	Lines    tally            `json:"lines_tally"`    // of the lines
	Others   tally            `json:"others_tally"`   // of everything else but the head
	Writers  []writerID       `json:"writers"`        // in the order in which they were first seen
	Gaps     []gap            `json:"gaps,omitempty"` // events that were lost, and of which that is known
	Back     *Setback         `json:"back,omitempty"` // what the folder lacked when it was found put back
}

func headKey() []byte { return []byte(bookBucket) }

func (h *head) encode() ([]byte, error) { return json.Marshal(h) }

func decodeHead(value []byte) (head, error) {
	var h head
	if err := json.Unmarshal(value, &h); err != nil {
		return h, &DamageError{dbName, "what it says of the book cannot be read: " + err.Error()}
	}
	if h.Format > format {
		return h, &NewerError{h.Format}
	}
	return h, nil
}

// writerIndex is the short form of a writer in this book, or -1.
func (h *head) writerIndex(w writerID) int { return slices.Index(h.Writers, w) }

// MarshalText writes the order in hexadecimal digits.
func (o order) MarshalText() ([]byte, error) { return []byte(o.String()), nil }

// UnmarshalText reads what MarshalText writes.
func (o *order) UnmarshalText(text []byte) error {
	data, err := hex.DecodeString(string(text))
	if err != nil || copy(o[:], data) != orderBytes {
		return fmt.Errorf("%q is not an order", text)
	}
	return nil
}
