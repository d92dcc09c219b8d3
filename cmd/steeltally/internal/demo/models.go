package demo

import (
	"steeltally/geometry"
	"steeltally/inventory/deeds"
)

// system is steel and the holder it is made for. Makers, names and fit keys are invented.
type system struct {
	runner, holder     string
	maker              string
	family, attachment string
	goalkeeper         bool
	thickness, height  geometry.Millimetre
}

// systems are skua, petrel and auk, the goalkeepers'.
func systems() (skua, petrel, auk *system) {
	skua = &system{"Skua R", "Skua H", "Lantern Rock Forge", "skua", "bolt", false, 2.9, 21}
	petrel = &system{"Petrel R", "Petrel H", "Nordskerry Steel", "petrel", "lever", false, 3.0, 21}
	auk = &system{"Auk G", "Auk H", "Nordskerry Steel", "auk", "bolt", true, 4.0, keepersSteel}
	return skua, petrel, auk
}

// trialModel is steel on trial that nobody has declared.
const trialModel = "Fulmar R"

// declare says what the club's models are and what they fit.
func (c *club) declare() {
	for _, s := range []*system{c.skua, c.petrel, c.auk} {
		runner := deeds.DeclareModel{
			Name: s.runner, Piece: "runner", Maker: s.maker, Family: s.family, Attachment: s.attachment,
			Goalkeeper: s.goalkeeper, Thickness: s.thickness, Height: new(s.height),
		}
		holder := runner
		holder.Name, holder.Piece, holder.Thickness, holder.Height = s.holder, "holder", 0, nil
		c.enter(runner)
		c.enter(holder)
	}
}

// sizes are the lengths in mm, as marked, that skates come in.
func sizes() []int { return []int{254, 263, 272, 280, 288, 296} }
