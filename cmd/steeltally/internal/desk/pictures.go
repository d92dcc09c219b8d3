package desk

import (
	"context"
	"fmt"
	"image"
	"image/png"
	"io"
	"math"

	"steeltally/inventory"
	"steeltally/labels/reader"
)

// Photograph is a picture with what was found in it.
type Photograph struct {
	File    string
	Tags    []SeenTag
	Others  []OtherSymbol
	Picture image.Image
}

// OtherSymbol is a symbol that is none of ours.
type OtherSymbol struct {
	Text    string    `json:"text"`
	File    string    `json:"file"`
	Corners [4][2]int `json:"corners_px"`
}

// ReadPicture gives the texts of the tags in a picture, as a hand scanner would.
func ReadPicture(ctx context.Context, from io.Reader, name string) ([]string, error) {
	p, err := ReadPhotograph(ctx, from, name)
	return p.scans(), err
}

// ReadPhotograph finds the tags in a picture. One without any is no error.
func ReadPhotograph(ctx context.Context, from io.Reader, name string) (Photograph, error) {
	picture, err := reader.Open(from)
	if err != nil {
		return Photograph{}, fmt.Errorf("%s: %w", name, err)
	}
	found, err := reader.Read(ctx, picture, reader.Options{})
	if err != nil {
		return Photograph{}, fmt.Errorf("%s: %w", name, err)
	}
	p := Photograph{File: name, Picture: picture}
	p.sort(found)
	return p, nil
}

// sort puts the symbols of each tag together, and what is not ours apart.
func (p *Photograph) sort(found []reader.Found) {
	var tags []*seen
	for _, symbol := range found {
		n, err := inventory.ScannedNumber(symbol.Text)
		if err != nil {
			p.Others = append(p.Others, OtherSymbol{symbol.Text, p.File, cornersOf(symbol)})
			continue
		}
		tags = addSeen(tags, n, symbol)
	}
	for _, tag := range tags {
		p.Tags = append(p.Tags, tag.tag(p.File))
	}
}

// Mark writes a copy of the picture with what was found framed and named.
func (p Photograph) Mark(o Options, file string) error {
	var symbols []reader.Found
	var names []string
	for _, tag := range p.Tags {
		for i, symbol := range tag.symbols {
			symbols = append(symbols, symbol)
			name := tag.Number.Short()
			if i > 0 {
				name = ""
			}
			names = append(names, name)
		}
	}
	marked, err := reader.Mark(p.Picture, symbols, func(i int) string { return names[i] })
	if err != nil {
		return err
	}
	return o.outlet(file).write(func(w io.Writer) error { return png.Encode(w, marked) })
}

// scans are the texts on the tags, as a hand scanner would give them: of a tag that
// describes itself the whole text, of another one its number.
func (p Photograph) scans() []string {
	var scans []string
	for _, tag := range p.Tags {
		scans = append(scans, tag.Text)
	}
	for _, other := range p.Others {
		scans = append(scans, other.Text)
	}
	return scans
}

// SeenTag is a tag in a picture.
type SeenTag struct {
	Number  inventory.Number `json:"number"`
	File    string           `json:"file"`
	Corners [4][2]int        `json:"corners_px"` // around its symbols, clockwise, the top left of the writing first
	Text    string           `json:"text"`       // the most that a symbol of it says
	Grades  []SymbolGrade    `json:"grades,omitempty"`
	symbols []reader.Found
}

// seen is the symbols of one tag: no two of one symbology.
type seen struct {
	number  inventory.Number
	symbols []reader.Found
}

// addSeen adds a symbol to the nearest tag of its number that lacks one of its kind:
// two of a kind are two tags that say the same.
func addSeen(tags []*seen, n inventory.Number, symbol reader.Found) []*seen {
	var nearest *seen
	least := math.Inf(1)
	for _, tag := range tags {
		if distance := tag.distance(n, symbol); distance < least {
			nearest, least = tag, distance
		}
	}
	if nearest == nil {
		return append(tags, &seen{n, []reader.Found{symbol}})
	}
	nearest.symbols = append(nearest.symbols, symbol)
	return tags
}

// distance is how far a symbol is from a tag that it may belong to, in pixels.
func (s *seen) distance(n inventory.Number, symbol reader.Found) float64 {
	if s.number != n {
		return math.Inf(1)
	}
	least := math.Inf(1)
	for _, has := range s.symbols {
		if has.Symbology == symbol.Symbology {
			return math.Inf(1)
		}
		least = min(least, has.Outline.Center().Minus(symbol.Outline.Center()).Length())
	}
	return least
}

func (s *seen) tag(file string) SeenTag {
	tag := SeenTag{Number: s.number, File: file, symbols: s.symbols, Text: s.number.String()}
	for _, symbol := range s.symbols {
		if inventory.IsTally(symbol.Text) {
			tag.Text = symbol.Text
		}
	}
	tag.Corners = around(s.symbols)
	return tag
}

// around is the smallest box around symbols that lies as the first one does.
func around(symbols []reader.Found) [4][2]int {
	if len(symbols) == 1 {
		return cornersOf(symbols[0])
	}
	outline := symbols[0].Outline
	across := outline[1].Minus(outline[0])
	across = across.Times(1 / across.Length())
	down := across
	down.X, down.Y = -across.Y, across.X
	left, top, right, bottom := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, symbol := range symbols {
		for _, corner := range symbol.Outline {
			x, y := corner.Dot(across), corner.Dot(down)
			left, right, top, bottom = min(left, x), max(right, x), min(top, y), max(bottom, y)
		}
	}
	var corners [4][2]int
	for i, at := range [4][2]float64{{left, top}, {right, top}, {right, bottom}, {left, bottom}} {
		p := across.Times(at[0]).Plus(down.Times(at[1]))
		corners[i] = [2]int{int(math.Round(p.X)), int(math.Round(p.Y))}
	}
	return corners
}

func cornersOf(symbol reader.Found) [4][2]int {
	var corners [4][2]int
	for i, p := range symbol.Corners {
		corners[i] = pixel(p)
	}
	return corners
}

func pixel(p image.Point) [2]int { return [2]int{p.X, p.Y} }
