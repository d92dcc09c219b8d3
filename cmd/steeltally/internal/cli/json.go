package cli

import (
	"encoding/json"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
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
