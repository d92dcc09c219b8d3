// Package templates holds the tags and the label sheets as they are described in
// plain TOML files: the ones that come with the program and those a club writes.
// It reads and checks them; drawing is another room's work.
package templates

import (
	"errors"
	"text/template"
	"text/template/parse"

	"steeltally/geometry"
)

// Box is a place on a tag, from the tag's top left corner.
type Box struct {
	X, Y, Width, Height geometry.Millimetre
}

// Right is the box's right edge.
func (b Box) Right() geometry.Millimetre { return b.X + b.Width }

// Bottom is the box's lower edge.
func (b Box) Bottom() geometry.Millimetre { return b.Y + b.Height }

// Fit is the rule for a text that is too long for its box.
type Fit string

// The fit rules. Each but Refuse first makes the text smaller, down to its least height.
const (
	Shrink Fit = "shrink" // one line, smaller; refused below the least height
	Wrap   Fit = "wrap"   // as many lines as the box holds; then as Shrink
	Refuse Fit = "refuse" // never smaller: refused
	Cut    Fit = "cut"    // as Wrap, but at the least height it is cut short, with a mark and a notice
)

// Align is where a text or symbol stands in its box, sideways.
type Align string

// The alignments.
const (
	Left   Align = "left"
	Centre Align = "centre"
	Right  Align = "right"
)

// Valign is where a text stands in its box, upright.
type Valign string

// The upright alignments.
const (
	Top    Valign = "top"
	Middle Valign = "middle"
	Bottom Valign = "bottom"
)

// Template is one kind of tag.
type Template struct {
	Name          string
	Title         string // what it is for, in a few words
	Width, Height geometry.Millimetre
	Texts         []Text
	Symbols       []Symbol
	Bars          []Bar
	Holes         []Hole
	Lines         []Line
}

// Condition says when an element is there: on which side's tag, and for which content.
type Condition struct {
	Side string // "left", "right", "none" or empty for every tag
	when *template.Template
}

// Text is a field of writing.
type Text struct {
	Condition
	Box      Box
	Height   geometry.Millimetre // of the digits and capitals, when there is room
	Least    geometry.Millimetre // of the digits and capitals, at the smallest
	Fit      Fit
	Align    Align
	Valign   Valign
	Bold     bool
	Reversed bool // the whole box is black, the text white
	Turned   bool // upside down, for the far face of a folded tag
	content  *template.Template
	source   string
}

// Symbol is a machine-readable symbol, drawn as large as its box allows.
type Symbol struct {
	Condition
	Box        Box      // quiet zone included
	Prefer     []string // symbologies, most wanted first
	LeastLevel string   // weakest error correction of a QR
	Align      Align
	content    *template.Template
	source     string
}

// Bar is a black rectangle.
type Bar struct {
	Condition
	Box Box
}

// Hole is where the string or the cable tie goes through; nothing is printed in it.
type Hole struct {
	X, Y     geometry.Millimetre // centre
	Diameter geometry.Millimetre
}

// Line is a thin guide for scissors or for folding, level or upright.
type Line struct {
	X1, Y1, X2, Y2 geometry.Millimetre
	Dashed         bool
}

// errBusy says that a field could keep the program busy without an end.
var errBusy = errors.New("range goes over .Lines, once and in no other, and no text calls another")

// finite refuses what might never end although it writes nothing: a range over a large
// count, one in another, and texts that call texts.
func finite(t *template.Template) error {
	if len(t.Templates()) > 1 {
		return errBusy
	}
	if t.Tree == nil {
		return nil
	}
	return finiteList(t.Tree.Root, false)
}

func finiteList(list *parse.ListNode, inRange bool) error {
	if list == nil {
		return nil
	}
	for _, node := range list.Nodes {
		if err := finiteNode(node, inRange); err != nil {
			return err
		}
	}
	return nil
}

func finiteNode(node parse.Node, inRange bool) error {
	switch node := node.(type) {
	case *parse.TemplateNode:
		return errBusy
	case *parse.RangeNode:
		if inRange || node.Pipe.String() != ".Lines" {
			return errBusy
		}
		return finiteBranch(&node.BranchNode, true)
	case *parse.IfNode:
		return finiteBranch(&node.BranchNode, inRange)
	case *parse.WithNode:
		return finiteBranch(&node.BranchNode, inRange)
	}
	return nil
}

func finiteBranch(node *parse.BranchNode, inRange bool) error {
	if err := finiteList(node.List, inRange); err != nil {
		return err
	}
	return finiteList(node.ElseList, inRange)
}
