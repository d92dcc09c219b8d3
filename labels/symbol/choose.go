package symbol

import (
	"errors"
	"fmt"
	"strings"

	"steeltally/geometry"
)

// Dots a module: DesignDots is what a tag is designed for, LeastDots what a thermal
// printer still prints cleanly (common practice, no source).
const (
	DesignDots geometry.Dot = 3
	LeastDots  geometry.Dot = 2
)

// Request is what a symbol must carry and the room there is for it.
type Request struct {
	Text          string
	Width, Height geometry.Dot // the room, quiet zone included
	Prefer        []Symbology  // most wanted first
	LeastLevel    Level        // weakest error correction taken for a QR; empty is M
}

// Choice is a symbol with the size of its modules, and why it was chosen.
type Choice struct {
	Symbol  Symbol
	Dots    geometry.Dot // a module's side
	Width   geometry.Dot // with quiet zone
	Height  geometry.Dot // with quiet zone
	Reasons []string
}

// candidate is a symbol that could be made, before it is made.
type candidate struct {
	name          string
	width, height int // modules, with quiet zone
	level         Level
	make          func() (Symbol, error)
}

// ErrNoRoom says that no wanted symbol can be drawn in the room, even at LeastDots.
var ErrNoRoom = errors.New("no room for a symbol")

// Choose takes the first wanted symbology that fits at DesignDots, or else the first
// that fits at LeastDots. Within a symbology it takes the largest modules, then the
// highest error correction that keeps them.
func Choose(r Request) (Choice, error) {
	if err := checkText(r.Text); err != nil {
		return Choice{}, err
	}
	var reasons, shortfalls []string
	for _, least := range []geometry.Dot{DesignDots, LeastDots} {
		for _, kind := range r.Prefer {
			options, err := candidates(r, kind)
			if err != nil {
				shortfalls = append(shortfalls, err.Error())
				continue
			}
			best, dots := largest(options, r.Width, r.Height)
			if dots >= least {
				return finish(best, dots, r, append(reasons, explain(options, r)...))
			}
			reasons = append(reasons, fmt.Sprintf("%s does not fit at %d dots a module", kind.Title(), least))
			shortfalls = append(shortfalls, wouldFit(options))
		}
	}
	return Choice{}, fmt.Errorf("%w of %d x %d dots: %s", ErrNoRoom, r.Width, r.Height, strings.Join(unique(shortfalls), "; "))
}

// checkText refuses what readers that type like a keyboard cannot type.
func checkText(text string) error {
	if text == "" {
		return ErrNoText
	}
	for _, r := range text {
		if r < ' ' || r > '~' {
			return fmt.Errorf("a symbol takes plain letters, digits and signs (ASCII), not %q", r)
		}
	}
	return nil
}

// candidates lists the forms of one symbology that can carry the text.
func candidates(r Request, kind Symbology) ([]candidate, error) {
	switch kind {
	case QR:
		return qrCandidates(r)
	case DataMatrix:
		return dataMatrixCandidates(r)
	case Code128:
		return code128Candidates(r)
	}
	return nil, fmt.Errorf("%q is not a symbology: use %s, %s or %s", kind, QR, DataMatrix, Code128)
}

// largest is the candidate with the largest modules; among equals a stronger level,
// then an earlier place in the list.
func largest(options []candidate, width, height geometry.Dot) (candidate, geometry.Dot) {
	best, most := candidate{}, geometry.Dot(0)
	for _, c := range options {
		dots := min(width/geometry.Dot(c.width), height/geometry.Dot(c.height))
		if dots > most || dots == most && dots > 0 && c.level.rank() > best.level.rank() {
			best, most = c, dots
		}
	}
	return best, most
}

// finish makes the chosen symbol.
func finish(c candidate, dots geometry.Dot, r Request, reasons []string) (Choice, error) {
	s, err := c.make()
	if err != nil {
		return Choice{}, err
	}
	width, height := s.Area(dots)
	if s.Symbology == Code128 {
		height = r.Height
	}
	reasons = append(reasons, fmt.Sprintf("taken: %s at %d dots a module", c.name, dots))
	return Choice{Symbol: s, Dots: dots, Width: width, Height: height, Reasons: reasons}, nil
}

// explain says for each form how large its modules could be.
func explain(options []candidate, r Request) []string {
	var lines []string
	for _, c := range options {
		dots := min(r.Width/geometry.Dot(c.width), r.Height/geometry.Dot(c.height))
		lines = append(lines, fmt.Sprintf("%s, %d x %d modules with quiet zone: %d dots a module in %d x %d dots",
			c.name, c.width, c.height, dots, r.Width, r.Height))
	}
	return lines
}

// wouldFit says what room the smallest form needs at LeastDots.
func wouldFit(options []candidate) string {
	least := options[0]
	for _, c := range options {
		if c.width*c.height < least.width*least.height {
			least = c
		}
	}
	return fmt.Sprintf("%s needs %d x %d dots at %d dots a module",
		least.name, geometry.Dot(least.width)*LeastDots, geometry.Dot(least.height)*LeastDots, LeastDots)
}

// unique drops repeated lines and keeps the order.
func unique(lines []string) []string {
	seen := map[string]bool{}
	var kept []string
	for _, line := range lines {
		if !seen[line] {
			seen[line] = true
			kept = append(kept, line)
		}
	}
	return kept
}
