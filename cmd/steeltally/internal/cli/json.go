package cli

import (
	"encoding/json"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory"
)

// day is a day for programs; null where there is none.
type day struct{ time.Time }

func dayOf(when inventory.When, zone *time.Location) day { return day{when.Start.In(zone)} }

// MarshalJSON writes "2006-01-02" or null.
func (d day) MarshalJSON() ([]byte, error) {
	if d.IsZero() {
		return []byte("null"), nil
	}
	return d.AppendFormat(nil, `"2006-01-02"`), nil
}

// bound is a figure for programs; null where there is no bound.
type bound float64

// MarshalJSON writes a number or null.
func (b bound) MarshalJSON() ([]byte, error) {
	if value := float64(b); !math.IsInf(value, 0) && !math.IsNaN(value) {
		return json.Marshal(value)
	}
	return []byte("null"), nil
}

// joined writes the members of all parts as one JSON object.
func joined(parts []any) (string, error) {
	var members []string
	for _, part := range parts {
		var text strings.Builder
		encoder := json.NewEncoder(&text)
		encoder.SetEscapeHTML(false)
		if err := encoder.Encode(part); err != nil {
			return "", err
		}
		if inner := strings.TrimSuffix(strings.TrimPrefix(text.String(), "{"), "}\n"); inner != "" {
			members = append(members, inner)
		}
	}
	object := "{" + strings.Join(members, ",") + "}\n"
	return negativeZero.ReplaceAllString(object, "${1}0${2}"), nil
}

var (
	negativeZero = regexp.MustCompile(`(\w":)-0([,}])`)
	lengths      = regexp.MustCompile(`_mm":(?:\[[^\]]*|\{[^}]*|[^,}\]]*)`)
	figures      = regexp.MustCompile(`([:\[,])(-?[0-9][0-9.e+-]*)`)
)

// thousandths rounds every length in an object to a thousandth of a millimetre.
func thousandths(object string) string {
	return lengths.ReplaceAllStringFunc(object, func(member string) string {
		return figures.ReplaceAllStringFunc(member, func(found string) string {
			length, err := strconv.ParseFloat(found[1:], 64)
			if err != nil {
				return found
			}
			return found[:1] + strconv.FormatFloat(math.Round(1000*length)/1000+0, 'f', -1, 64)
		})
	})
}

// warned says "do_not_skate": true in each object whose number is that of something that
// nobody may skate on; where it has no number of a piece, in each that names such a piece.
// An object that says how its piece stands, and the body of an entry, are left as they are.
func warned(object string, unsafe func(string) bool) string {
	w := warner{Decoder: json.NewDecoder(strings.NewReader(object)), unsafe: unsafe, from: object}
	w.value(new(bool))
	return w.out.String() + object[w.copied:]
}

type warner struct {
	*json.Decoder
	unsafe func(string) bool
	from   string
	out    strings.Builder
	copied int64
}

// value reads a value; names is set where it names such a piece itself.
func (w *warner) value(names *bool) (text string) {
	token, _ := w.Token()
	switch token {
	case json.Delim('{'):
		w.members()
	case json.Delim('['):
		for w.More() {
			w.value(names)
		}
		w.Token()
	default:
		text, _ = token.(string)
		*names = *names || w.unsafe(text)
	}
	return text
}

func (w *warner) members() {
	names, said := false, false
	also := &names // what is named beside the object's own number
	for w.More() {
		key, err := w.Token()
		if err != nil {
			return
		}
		switch key {
		case "body":
			w.Decode(new(json.RawMessage))
		case "number":
			own := false
			if desk.ShowsPiece(w.value(&own)) {
				names, also = own, new(bool)
			}
		default:
			said = said || key == "do_not_skate"
			w.value(also)
		}
	}
	end := w.InputOffset()
	w.Token()
	if names && !said {
		w.out.WriteString(w.from[w.copied:end] + `,"do_not_skate":true`)
		w.copied = end
	}
}

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
