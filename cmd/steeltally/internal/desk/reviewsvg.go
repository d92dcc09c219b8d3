package desk

import (
	"bytes"

	"steeltally/labels/drawing"
	"steeltally/labels/plot"
)

// Picture is a drawing for a screen.
type Picture struct {
	Title string
	SVG   []byte
}

// ReviewPictures draws for a screen what the page for the wall draws on paper.
func ReviewPictures(r Review) ([]Picture, error) {
	p := reviewPages{review: r}
	const width, height = 120, 60
	var pictures []Picture
	draw := func(title string, d drawing.Drawing) error {
		var svg bytes.Buffer
		err := d.WriteSVG(&svg, title)
		pictures = append(pictures, Picture{title, svg.Bytes()})
		return err
	}
	if removals := p.removals(nil); len(removals) > 0 {
		title := "Height at removal, and the middle of each month"
		if err := draw(title, plot.Removals(title, removals, p.changesKnown()).Draw(width, height)); err != nil {
			return nil, err
		}
		title = "When skaters' runners leave use"
		if err := draw(title, p.leaving().Chart(title).Draw(width, height)); err != nil {
			return nil, err
		}
	}
	if damages := p.damages(nil); len(damages) > 0 {
		title := "Cracks, breaks and bends"
		if err := draw(title, plot.Damages(title, damages, width)); err != nil {
			return nil, err
		}
	}
	return pictures, nil
}
