package deeds

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// RefusedTag is a scan from which nothing was taken, and why.
type RefusedTag struct {
	Scan   string           `json:"scan"`
	Number inventory.Number `json:"number,omitempty"`
	Reason string           `json:"reason"`
	Hint   string           `json:"hint,omitempty"`
}

// TagSort is what a heap of scans comes to.
type TagSort struct {
	New        []inventory.TagFacts // one of a piece, of its highest generation
	Duplicates int                  // scans of a tag that counts already
	Refused    []RefusedTag
}

// SortTags sorts scans of tags, in any order, into what a record can learn from them.
// Of one piece the tag of the highest generation counts; a number alone never decides
// that a tag is current; and what the record knows better it keeps.
func SortTags(v inventory.View, now time.Time, scans []string) TagSort {
	s := tagSorter{view: v, now: now, zone: inventory.ClubOf(v).Location(), seen: map[string]bool{}, best: map[inventory.Number]int{}}
	var tags []scannedTag
	for _, scan := range scans {
		if tag, ok := s.read(strings.TrimSpace(scan)); ok {
			tags = append(tags, tag)
			if tag.facts.Generation > s.best[tag.facts.Piece] {
				s.best[tag.facts.Piece] = tag.facts.Generation
			}
		}
	}
	taken := map[inventory.Number]bool{}
	for _, tag := range tags {
		s.take(tag, taken)
	}
	return s.TagSort
}

// tagSorter sorts one heap.
type tagSorter struct {
	TagSort
	view inventory.View
	now  time.Time
	zone *time.Location
	seen map[string]bool
	best map[inventory.Number]int // highest generation in the heap
}

type scannedTag struct {
	text  string
	facts inventory.TagFacts
}

func (s *tagSorter) refuse(text string, n inventory.Number, reason, hint string) {
	s.Refused = append(s.Refused, RefusedTag{text, n, reason, hint})
}

// read reads one scan; what can't be a tag's text is refused, what was scanned before
// is counted.
func (s *tagSorter) read(text string) (scannedTag, bool) {
	text = inventory.AsScanned(text)
	if text == "" {
		return scannedTag{}, false
	}
	if s.seen[text] {
		s.Duplicates++
		return scannedTag{}, false
	}
	tag, refused := s.parse(text)
	if refused != nil {
		s.Refused = append(s.Refused, *refused)
		return tag, false
	}
	s.seen[text] = true
	return tag, true
}

func (s *tagSorter) parse(text string) (scannedTag, *RefusedTag) {
	if !inventory.IsTally(text) {
		return scannedTag{}, refusedNumber(text)
	}
	tally, err := inventory.ParseTally(text)
	if err != nil {
		return scannedTag{}, refusedScan(text, err)
	}
	facts, err := tally.Facts(s.zone)
	switch {
	case err != nil:
		return scannedTag{}, &RefusedTag{text, tally.Piece, err.Error(), "look at the piece and enter it by hand: steeltally found"}
	case facts.Generation == 0 && tally.Piece.Kind() == inventory.KindRunner:
		return scannedTag{}, &RefusedTag{text, tally.Piece, "the tag is of a runner that was never in use", "enter it as stock: steeltally stockin runner"}
	case facts.Out.After(s.now.Add(clockTolerance)):
		return scannedTag{}, &RefusedTag{text, tally.Piece, "the tag says that it came off on a day still to come", "check this machine's clock"}
	}
	return scannedTag{text, facts}, nil
}

// refusedNumber says why a number alone is not enough.
func refusedNumber(text string) *RefusedTag {
	n, err := inventory.ParseNumber(text)
	if err != nil {
		return refusedScan(text, err)
	}
	return &RefusedTag{text, n, "a number alone says neither what happened to the piece nor whether its tag is current", "scan the tag's large symbol"}
}

func refusedScan(text string, err error) *RefusedTag {
	reason := err.Error()
	if notNumber, ok := err.(*inventory.NotANumber); ok {
		reason = notNumber.Reason
	}
	return &RefusedTag{inventory.Clip(text), 0, reason, "scan it again, or enter the piece by hand: steeltally found"}
}

// take decides about one tag of the heap, against the others and the record.
func (s *tagSorter) take(tag scannedTag, taken map[inventory.Number]bool) {
	n, generation := tag.facts.Piece, tag.facts.Generation
	switch {
	case generation < s.best[n]:
		s.refuse(tag.text, n, fmt.Sprintf("stale: the tag is of generation %d, another one of generation %d was scanned too", generation, s.best[n]), "throw it away")
	case taken[n]:
		s.refuse(tag.text, n, "another tag of the same generation says something else", "keep the right one; a height or a date can be corrected after rebuilding")
	case s.known(tag):
	default:
		s.New = append(s.New, tag.facts)
	}
	taken[n] = taken[n] || generation == s.best[n]
}

// known tells whether the record has the tag, or knows better; that is counted or
// refused.
func (s *tagSorter) known(tag scannedTag) bool {
	switch state := s.view.Entity(inventory.RefOf(tag.facts.Piece)).(type) {
	case *inventory.Runner:
		if state.Stock.Entered() {
			s.knowsBetter(tag, string(standing.RunnerState(s.view, state, s.now)), state.Generation(s.now))
			return true
		}
		return s.knownFromTag(tag, state.Tag)
	case *inventory.Holder:
		if state.Stock.Entered() {
			s.knowsBetter(tag, string(standing.HolderState(s.view, state, s.now)), tag.facts.Generation)
			return true
		}
		return s.knownFromTag(tag, state.Tag)
	}
	return false
}

// knownFromTag compares a tag with one that was taken before.
func (s *tagSorter) knownFromTag(tag scannedTag, before *inventory.TagFacts) bool {
	switch {
	case before == nil || tag.facts.Generation > before.Generation:
		return false
	case tag.facts.Generation < before.Generation:
		s.refuse(tag.text, before.Piece, fmt.Sprintf("stale: the tag is of generation %d, the record has generation %d", tag.facts.Generation, before.Generation), "throw it away")
	case before.Agrees(tag.facts.Out, &tag.facts.KnownFromTag):
		s.Duplicates++
	default:
		s.refuse(tag.text, before.Piece, "another tag of the same generation says something else", "steeltally history "+before.Piece.Short()+" shows what was taken from the other one")
	}
	return true
}

// knowsBetter refuses a tag of a piece that has a record of its own.
func (s *tagSorter) knowsBetter(tag scannedTag, state string, generation int) {
	n := tag.facts.Piece
	if tag.facts.Generation < generation {
		s.refuse(tag.text, n, fmt.Sprintf("stale: the tag is of generation %d, the record has generation %d", tag.facts.Generation, generation), "throw it away")
		return
	}
	hint := "there is nothing to do"
	if state != string(inventory.Removed) {
		hint = "if it came off since: steeltally out " + n.Short() + " --reason " + string(cmp.Or(tag.facts.Reason.Reason(), inventory.ReasonLow))
	}
	s.refuse(tag.text, n, fmt.Sprintf("the record knows the piece itself: %s", state), hint)
}

// KnowFromTags enters removed pieces of which nothing but their tags is known.
type KnowFromTags []inventory.TagFacts

// Decide records what the tags say. A tag whose reason is a break or a crack forbids
// use, whatever else is known.
func (d KnowFromTags) Decide(v inventory.View, _ Moment) (Outcome, error) {
	var out Outcome
	nameless := map[inventory.Number]bool{}
	for i := range d {
		facts := &d[i]
		body := facts.KnownFromTag
		out.record(facts.Out, &body)
		if mode := facts.Reason.Mode(); mode.ForbidsUse() {
			out.record(facts.Out, &inventory.Damaged{Piece: facts.Piece, Mode: mode, Zone: "unknown", Unsafe: true, Note: "from its tag"})
		}
		if facts.Player != 0 && !inventory.IsEntered(v.Entity(inventory.RefOf(facts.Player))) {
			nameless[facts.Player] = true
		}
	}
	if len(nameless) > 0 {
		out.tell(fmt.Sprintf("players known by sweater only: %d; tags carry no names", len(nameless)), "name them: steeltally player set 17 --name NAME --position defence")
	}
	return out, nil
}
