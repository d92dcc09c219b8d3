package cli

import (
	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory"
)

// stateTold is a thing for programs: a piece, with a runner's wear, or a player.
type stateTold struct {
	Piece  any         `json:"piece,omitempty"`
	Wear   *wearTold   `json:"wear,omitempty"`
	Player *memberTold `json:"player,omitempty"`
}

type runnerTold struct {
	desk.PieceLine
	Model      string              `json:"model"`
	Size       int                 `json:"size_mm"`
	Thickness  geometry.Millimetre `json:"thickness_mm"`
	Lot        string              `json:"lot"`
	Set        inventory.Number    `json:"set"`
	Generation int                 `json:"generation"`
}

type wearTold struct {
	Grinds  int                  `json:"grinds"`
	Unknown int                  `json:"grinds_of_unknown_passes"`
	Final   *geometry.Millimetre `json:"height_final_mm"`
	Last    *geometry.Millimetre `json:"height_last_mm"`
	New     *geometry.Millimetre `json:"height_new_mm"`
	Passes  int                  `json:"passes"`
}

type holderTold struct {
	desk.PieceLine
	Model  string           `json:"model"`
	Size   int              `json:"size_mm"`
	Lot    string           `json:"lot"`
	Pair   inventory.Number `json:"pair"`
	Runner inventory.Number `json:"runner"`
}

type setTold struct {
	desk.PieceLine
	Letter string           `json:"set"`
	Player inventory.Number `json:"player"`
	Left   inventory.Number `json:"left"`
	Right  inventory.Number `json:"right"`
}

type pairTold struct {
	desk.PieceLine
	Role   inventory.Role   `json:"role"`
	Player inventory.Number `json:"player"`
	Set    inventory.Number `json:"set"`
}

type containerTold struct {
	desk.PieceLine
	Name string `json:"name"`
}

type memberTold struct {
	Number   inventory.Number `json:"number"`
	Name     string           `json:"name"`
	Position string           `json:"position"`
	Sweater  int              `json:"sweater"`
	Specs    inventory.Specs  `json:"specs"`
}

func stateOf(h desk.History) stateTold {
	switch s := h.State.(type) {
	case *inventory.Runner:
		wear := s.WearAt(h.At)
		return stateTold{
			Piece: runnerTold{h.Piece, s.Model, s.Size, s.Thickness, s.Lot, s.SetAt(h.At), s.Generation(h.At)},
			Wear:  &wearTold{wear.Grinds, wear.UnknownWorks, wear.HeightFinal, wear.HeightLast, wear.HeightNew, wear.Passes},
		}
	case *inventory.Holder:
		return stateTold{Piece: holderTold{h.Piece, s.Model, s.Size, s.Lot, s.BootAt(h.At).Pair, s.RunnerAt(h.At)}}
	case *inventory.Set:
		return stateTold{Piece: setTold{h.Piece, s.Letter, s.Player, s.Left, s.Right}}
	case *inventory.Pair:
		return stateTold{Piece: pairTold{h.Piece, s.Role(h.At), s.Player, s.SetAt(h.At)}}
	case *inventory.Container:
		return stateTold{Piece: containerTold{h.Piece, s.Name}}
	case *inventory.Player:
		return stateTold{Player: &memberTold{s.Number, s.Name, s.Position, s.Sweater(h.At), s.SpecsAt(h.At)}}
	}
	return stateTold{}
}
