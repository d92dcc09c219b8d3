package inventory

import "steeltally/geometry"

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
