package inventory

import (
	"cmp"
	"fmt"

	"steeltally/geometry"
)

// ModelNoted declares a model of runner or holder and what it fits.
type ModelNoted struct {
	Name       string               `json:"name"`
	Piece      string               `json:"piece"` // runner or holder
	Maker      string               `json:"maker,omitempty"`
	Family     string               `json:"family,omitempty"`     // holder family
	Attachment string               `json:"attachment,omitempty"` // how the runner is held
	Goalkeeper bool                 `json:"goalkeeper,omitempty"`
	Thickness  geometry.Millimetre  `json:"thickness_mm,omitempty"`
	Height     *geometry.Millimetre `json:"height_mm,omitempty"` // new
}

// Kind is the word in the record.
func (*ModelNoted) Kind() string { return "model" }

// Touches names the model.
func (b *ModelNoted) Touches() []Ref { return []Ref{ModelRef(b.Name)} }

func (b *ModelNoted) line(Teller, *Event) string {
	return fmt.Sprintf("model %s declared: %s, family %s, held by %s", b.Name, b.Piece, OrDash(b.Family), OrDash(b.Attachment))
}

// Model is what is declared of a model of runner or holder.
type Model struct {
	Name       string               `json:"name"`
	Piece      string               `json:"piece,omitempty"`
	Maker      string               `json:"maker,omitempty"`
	Family     string               `json:"family,omitempty"`
	Attachment string               `json:"attachment,omitempty"`
	Goalkeeper bool                 `json:"goalkeeper,omitempty"`
	Thickness  geometry.Millimetre  `json:"thickness_mm,omitempty"`
	Height     *geometry.Millimetre `json:"height_mm,omitempty"`
	Declared   bool                 `json:"declared,omitempty"`
}

// Apply folds one event.
func (m *Model) Apply(e *Event) {
	switch b := e.Body.(type) {
	case *ModelNoted:
		*m = Model{b.Name, b.Piece, b.Maker, b.Family, b.Attachment, b.Goalkeeper, b.Thickness, b.Height, true}
	case *StockedIn:
		if m.Name == "" {
			m.Name = b.Model
		}
	}
}

// FamilyOf is the holder family of a piece's model; empty where nobody declared it.
func FamilyOf(v View, s *Stock) string { return fitOf(v, s).family }

// fitKey is what decides whether a runner goes into a holder.
type fitKey struct {
	family, attachment string
	goalkeeper         bool
	size               int // 0: unknown, of a piece known from its tag
	declared           bool
}

func fitOf(v View, s *Stock) fitKey {
	model, known := v.Entity(ModelRef(s.Model)).(*Model)
	if !known || !model.Declared {
		return fitKey{size: s.Size}
	}
	return fitKey{model.Family, model.Attachment, model.Goalkeeper, s.Size, model.Family != ""}
}

// Fits says why a runner can't go into a holder, or nothing where it can as far as
// is known. Common practice, no source: family, length and attachment decide.
func Fits(v View, runner, holder *Stock) (why string, sure bool) {
	r, h := fitOf(v, runner), fitOf(v, holder)
	switch {
	case r.size != h.size && r.size != 0 && h.size != 0:
		return fmt.Sprintf("the runner is a %d, the holder a %d", r.size, h.size), true
	case !r.declared || !h.declared:
		return "what fits is not declared for " + undeclared(r, runner, holder), false
	case r.goalkeeper != h.goalkeeper:
		return "one is a goalkeeper's, the other a skater's", true
	case r.family != h.family:
		return fmt.Sprintf("the runner is for holder family %s, the holder is %s", r.family, h.family), true
	case r.attachment != "" && h.attachment != "" && r.attachment != h.attachment:
		return fmt.Sprintf("the runner is held by %s, the holder holds by %s", r.attachment, h.attachment), true
	}
	return "", true
}

func undeclared(r fitKey, runner, holder *Stock) string {
	model := holder.Model
	if !r.declared {
		model = runner.Model
	}
	return cmp.Or(model, "a piece whose model is not known")
}
