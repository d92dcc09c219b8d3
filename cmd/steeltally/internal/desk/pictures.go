package desk

import (
	"context"
	"fmt"
	"image"
	"image/png"
	"io"

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
