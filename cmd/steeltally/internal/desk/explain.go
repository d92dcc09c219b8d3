package desk

import (
	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/labels"
)

// ExplainedTag says why the symbols of a tag are as they are.
type ExplainedTag struct {
	Number   inventory.Number  `json:"number"`
	Template string            `json:"template"`
	DPI      geometry.DPI      `json:"dpi"`
	Symbols  []ExplainedSymbol `json:"symbols"`
}

// ExplainedSymbol is a symbol with the reasons for its choice.
type ExplainedSymbol struct {
	Symbology string              `json:"symbology"`
	Text      string              `json:"text"`
	Dots      geometry.Dot        `json:"dots_a_module"`
	Module    geometry.Millimetre `json:"module_mm"`
	Reasons   []string            `json:"reasons"`
}

// ExplainTags says for each symbol of the tags of a job which ones could be, and why
// this one was taken.
func (d *Desk) ExplainTags(job TagJob) ([]ExplainedTag, error) {
	work, err := d.tagWork(job)
	if err != nil {
		return nil, err
	}
	if err := work.layAll(d); err != nil {
		return nil, err
	}
	tags := []ExplainedTag{}
	for i, page := range work.inOrder() {
		tag := ExplainedTag{work.printed.Each[i].Number, work.printed.Each[i].Template, page.DPI, nil}
		for _, placed := range page.Symbols {
			tag.Symbols = append(tag.Symbols, ExplainedSymbol{
				placed.Choice.Symbol.Symbology.Title(), placed.Choice.Symbol.Text,
				placed.Choice.Dots, placed.Choice.Dots.Millimetres(page.DPI), placed.Choice.Reasons,
			})
		}
		tags = append(tags, tag)
	}
	return tags, nil
}

// inOrder are the laid-out tags in the order of their pieces.
func (w *tagWork) inOrder() []labels.Page {
	pages := make([]labels.Page, 0, len(w.printed.Each))
	next := map[*sheetGroup]int{}
	for _, group := range w.order {
		pages = append(pages, group.tags[next[group]])
		next[group]++
	}
	return pages
}
