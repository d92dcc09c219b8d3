package inventory

import (
	"fmt"
	"strings"
	"time"
)

// RefusedTag is a scan from which nothing was taken, and why.
type RefusedTag struct {
	Scan   string `json:"scan"`
	Number Number `json:"number,omitempty"`
	Reason string `json:"reason"`
	Hint   string `json:"hint,omitempty"`
}

// TagSort is what a heap of scans comes to.
type TagSort struct {
	New        []TagFacts // one of a piece, of its highest generation
	Duplicates int        // scans of a tag that counts already
	Refused    []RefusedTag
}

// SortTags sorts scans of tags, in any order, into what a record can learn from them.
// Of one piece the tag of the highest generation counts; a number alone never decides
// that a tag is current; and what the record knows better it keeps.
func SortTags(v View, now time.Time, scans []string) TagSort {
	s := tagSorter{view: v, now: now, zone: ClubOf(v).Location(), seen: map[string]bool{}, best: map[Number]int{}}
	var tags []scannedTag
	for _, scan := range scans {
		if tag, ok := s.read(strings.TrimSpace(scan)); ok {
			tags = append(tags, tag)
			if tag.facts.Generation > s.best[tag.facts.Piece] {
				s.best[tag.facts.Piece] = tag.facts.Generation
			}
		}
	}
	taken := map[Number]bool{}
	for _, tag := range tags {
		s.take(tag, taken)
	}
	return s.TagSort
}

// tagSorter sorts one heap.
type tagSorter struct {
	TagSort
	view View
	now  time.Time
	zone *time.Location
	seen map[string]bool
	best map[Number]int // highest generation in the heap
}

type scannedTag struct {
	text  string
	facts TagFacts
}

func (s *tagSorter) refuse(text string, n Number, hint, format string, args ...any) {
	s.Refused = append(s.Refused, RefusedTag{text, n, fmt.Sprintf(format, args...), hint})
}

// read reads one scan; what can't be a tag's text is refused, what was scanned before
// is counted.
func (s *tagSorter) read(text string) (scannedTag, bool) {
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
	if !IsTally(text) {
		return scannedTag{}, refusedNumber(text)
	}
	tally, err := ParseTally(text)
	if err != nil {
		return scannedTag{}, refusedScan(text, err)
	}
	facts, err := tally.Facts(s.zone)
	switch {
	case err != nil:
		return scannedTag{}, &RefusedTag{text, tally.Piece, err.Error(), "look at the piece and enter it by hand: steeltally found"}
	case facts.Generation == 0 && tally.Piece.Kind() == KindRunner:
		return scannedTag{}, &RefusedTag{text, tally.Piece, "the tag is of a runner that was never in use", "enter it as stock: steeltally stockin runner"}
	case facts.Out.After(s.now.Add(clockTolerance)):
		return scannedTag{}, &RefusedTag{text, tally.Piece, "the tag says that it came off on a day still to come", "check this machine's clock"}
	}
	return scannedTag{text, facts}, nil
}

// refusedNumber says why a number alone is not enough.
func refusedNumber(text string) *RefusedTag {
	n, err := ParseNumber(text)
	if err != nil {
		return refusedScan(text, err)
	}
	return &RefusedTag{text, n, "a number alone says neither what happened to the piece nor whether its tag is current", "scan the tag's large symbol"}
}

func refusedScan(text string, err error) *RefusedTag {
	reason := err.Error()
	if notNumber, ok := err.(*NotANumber); ok {
		reason = notNumber.Reason
	}
	return &RefusedTag{clip(text), 0, reason, "scan it again, or enter the piece by hand: steeltally found"}
}

// take decides about one tag of the heap, against the others and the record.
func (s *tagSorter) take(tag scannedTag, taken map[Number]bool) {
	n, generation := tag.facts.Piece, tag.facts.Generation
	switch {
	case generation < s.best[n]:
		s.refuse(tag.text, n, "throw it away", "stale: the tag is of generation %d, another one of generation %d was scanned too", generation, s.best[n])
	case taken[n]:
		s.refuse(tag.text, n, "keep the right one; a height or a date can be corrected after rebuilding", "another tag of the same generation says something else")
	case s.known(tag):
	default:
		s.New = append(s.New, tag.facts)
	}
	taken[n] = taken[n] || generation == s.best[n]
}

// known tells whether the record has the tag, or knows better; that is counted or
// refused.
func (s *tagSorter) known(tag scannedTag) bool {
	switch state := s.view.Entity(RefOf(tag.facts.Piece)).(type) {
	case *Runner:
		if state.Stock.Entered() {
			s.knowsBetter(tag, string(state.StateAt(s.now)), state.Generation(s.now))
			return true
		}
		return s.knownFromTag(tag, state.Tag)
	case *Holder:
		if state.Stock.Entered() {
			s.knowsBetter(tag, string(state.StateAt(s.now)), tag.facts.Generation)
			return true
		}
		return s.knownFromTag(tag, state.Tag)
	}
	return false
}

// knownFromTag compares a tag with one that was taken before.
func (s *tagSorter) knownFromTag(tag scannedTag, before *TagFacts) bool {
	switch {
	case before == nil || tag.facts.Generation > before.Generation:
		return false
	case tag.facts.Generation < before.Generation:
		s.refuse(tag.text, before.Piece, "throw it away", "stale: the tag is of generation %d, the record has generation %d", tag.facts.Generation, before.Generation)
	case before.agrees(tag.facts.Out, &tag.facts.KnownFromTag):
		s.Duplicates++
	default:
		s.refuse(tag.text, before.Piece, "steeltally history "+before.Piece.Short()+" shows what was taken from the other one", "another tag of the same generation says something else")
	}
	return true
}

// knowsBetter refuses a tag of a piece that has a record of its own.
func (s *tagSorter) knowsBetter(tag scannedTag, state string, generation int) {
	n := tag.facts.Piece
	if tag.facts.Generation < generation {
		s.refuse(tag.text, n, "throw it away", "stale: the tag is of generation %d, the record has generation %d", tag.facts.Generation, generation)
		return
	}
	hint := "there is nothing to do"
	if state != string(Removed) {
		hint = "if it came off since: steeltally out " + n.Short() + " --reason " + orElse(tag.facts.Reason, "low")
	}
	s.refuse(tag.text, n, hint, "the record knows the piece itself: %s", state)
}

func orElse(word, otherwise string) string {
	if word == "" {
		return otherwise
	}
	return word
}

// KnowFromTags enters removed pieces of which nothing but their tags is known.
type KnowFromTags []TagFacts

// Decide records what the tags say. A tag whose reason is a break or a crack forbids
// use, whatever else is known.
func (d KnowFromTags) Decide(v View, _ Moment) (Outcome, error) {
	var out Outcome
	nameless := map[Number]bool{}
	for i := range d {
		facts := &d[i]
		body := facts.KnownFromTag
		out.record(facts.Out, &body)
		if mode := modeOfReason(facts.Reason); unsafe(mode) {
			out.record(facts.Out, &Damaged{Piece: facts.Piece, Mode: mode, Zone: "unknown", Unsafe: true, Note: "from its tag"})
		}
		if facts.Player != 0 && !entered(v.Entity(RefOf(facts.Player))) {
			nameless[facts.Player] = true
		}
	}
	if len(nameless) > 0 {
		out.tell("name them: steeltally player set 17 --name NAME --position defence", fmt.Sprintf("players known by sweater only: %d; tags carry no names", len(nameless)))
	}
	return out, nil
}

// brokenReasons pairs each reason for taking steel off that forbids use with the mode of
// damage that it stands for.
func brokenReasons() [3][2]string {
	return [...][2]string{{"broken", "break"}, {"cracked", "crack"}, {"bent", "bend"}}
}

// modeOfReason is the damage that a reason for taking steel off stands for.
func modeOfReason(reason string) string {
	for _, pair := range brokenReasons() {
		if pair[0] == reason {
			return pair[1]
		}
	}
	return reason
}

// ModeThatForbids is the mode of damage that the tag of a holder has to carry where one
// forbids use, whatever else is wrong with it: with the book lost, nothing else would
// tell. It is empty where none does; one that is only suspected counts as a crack.
func ModeThatForbids(damages []Damaged) string {
	mode := ""
	for _, damage := range damages {
		if !damage.Unsafe {
			continue
		}
		if unsafe(damage.Mode) {
			return damage.Mode
		}
		mode = "crack"
	}
	return mode
}

// ReasonThatForbids is the reason that the tag of a runner has to carry where a damage
// forbids use, whatever else it came off for.
func ReasonThatForbids(damages []Damaged) string {
	mode := ModeThatForbids(damages)
	for _, pair := range brokenReasons() {
		if pair[1] == mode {
			return pair[0]
		}
	}
	return mode
}
