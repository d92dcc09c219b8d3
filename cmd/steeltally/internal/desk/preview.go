package desk

import (
	"io"

	"steeltally/inventory"
	"steeltally/labels/png"
)

// Preview draws the tag of a piece as a picture, dot for dot as it comes out.
func (d *Desk) Preview(w io.Writer, n inventory.Number) error {
	work, err := d.tagWork(TagJob{Pieces: []inventory.Number{n}})
	if err != nil {
		return err
	}
	if err := work.layAll(d); err != nil {
		return err
	}
	pages, err := work.pages()
	if err != nil {
		return err
	}
	return png.Write(w, pages[0])
}
