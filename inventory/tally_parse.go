package inventory

import (
	"fmt"
	"strconv"
	"strings"

	"steeltally/geometry"
)

// qrAlphanumeric lists the QR alphanumeric set in the order of its values (ISO/IEC
// 18004, table 5).
const qrAlphanumeric = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"

// tallyDigits writes each character as the two digits of its QR alphanumeric value
// (A = 10 … Z = 35, as in ISO 17442). Two digits for every character, a digit's too,
// keep the places of all the others when one is misread: so MOD 97-10 catches every
// single wrong character and every swap of two neighbours.
func tallyDigits(text string) (string, bool) {
	digits := make([]byte, 0, 2*len(text))
	for i := range len(text) {
		value := strings.IndexByte(qrAlphanumeric, text[i])
		if value < 0 {
			return "", false
		}
		digits = append(digits, '0'+byte(value/10), '0'+byte(value%10))
	}
	return string(digits), true
}

// tallyChecks is how many check digits end a tally.
const tallyChecks = 2

func withTallyCheck(text string) string {
	digits, _ := tallyDigits(text)
	return fmt.Sprintf("%s%0*d", text, tallyChecks, CheckDigits(digits))
}

// tallyFits tells whether a text ends in its check digits.
func tallyFits(text string) bool {
	body := max(len(text)-tallyChecks, 0)
	digits, ok := tallyDigits(text[:body])
	return ok && allDigits(text[body:]) && CheckedDigits(digits+text[body:])
}

// tallyFields is how many fields version 1 has before the check digits.
const tallyFields = 13

// ParseTally reads the text of a removed runner's tag. It refuses what is not whole,
// with the reason.
func ParseTally(text string) (Tally, error) {
	if !tallyFits(text) {
		return Tally{}, &NotANumber{text, "the tag's check digits do not fit: scan again, or type the number"}
	}
	fields := strings.Split(text, ".")
	last := len(fields) - 1
	if last < tallyFields || len(fields[last]) != 2 || !allDigits(fields[last]) || !isVersion(fields[0]) {
		return Tally{}, &NotANumber{text, "the tag's text is not whole"}
	}
	fields = fields[:last]
	tally := Tally{In: fields[5], Out: fields[6], Reason: fields[12]}
	if len(fields) > tallyFields {
		tally.Later = fields[tallyFields:]
	}
	reader := tallyReader{text: text}
	reader.letters(tally.Reason)
	tally.Piece = reader.number(fields[1])
	tally.Generation = reader.count(fields[2])
	tally.Player = reader.player(fields[3])
	tally.Sweater, tally.Side = reader.sweater(fields[4])
	tally.New, tally.Final = reader.height(fields[7]), reader.height(fields[8])
	tally.Grinds = reader.count(fields[9])
	known, unknown := strings.CutSuffix(fields[10], "U")
	tally.Passes, tally.Unknown = reader.count(known), unknown
	tally.Hollow = reader.hollow(fields[11])
	reader.date(tally.In)
	reader.date(tally.Out)
	if reader.err != nil {
		return Tally{}, reader.err
	}
	return tally, nil
}

// isVersion tells whether a field is the version that a tally begins with.
func isVersion(field string) bool { return len(field) == 2 && IsTally(field+".") }

// tallyReader keeps the first error, so that the fields read on in order.
type tallyReader struct {
	text string
	err  error
}

func (r *tallyReader) fail(reason string) {
	if r.err == nil {
		r.err = &NotANumber{r.text, reason}
	}
}

func (r *tallyReader) number(field string) Number {
	n, err := ParseNumber(field)
	if err != nil || n.Kind() != KindRunner && n.Kind() != KindHolder || field != n.String() {
		r.fail("the tag does not carry the number of a runner or holder")
	}
	return n
}

func (r *tallyReader) player(field string) Number {
	if field == "" {
		return 0
	}
	if !allDigits(field) || len(field) < 2 || len(field) > 7 || field[1] == '0' {
		r.fail("the tag does not carry a player's number")
		return 0
	}
	running, _ := strconv.Atoi(field[1:])
	n, err := NewNumber(KindPlayer, int(field[0]-'0'), running)
	if err != nil {
		r.fail(err.Error())
	}
	return n
}

func (r *tallyReader) sweater(field string) (int, Side) {
	side := Side("")
	number := field
	if n, ok := strings.CutSuffix(field, "L"); ok {
		number, side = n, Left
	} else if n, ok := strings.CutSuffix(field, "R"); ok {
		number, side = n, Right
	}
	if number == "" {
		return 0, side
	}
	sweater := r.count(number)
	if sweater < 1 || sweater > MostSweater {
		r.fail("the tag does not carry a sweater number")
	}
	return sweater, side
}

// count reads a whole number as String writes it, without zeros in front.
func (r *tallyReader) count(field string) int {
	n, err := strconv.Atoi(field)
	if err != nil || n < 0 || strconv.Itoa(n) != field {
		r.fail("the tag carries " + Clip(field) + " where a count belongs")
	}
	return n
}

func (r *tallyReader) height(field string) *geometry.Millimetre {
	if field == "" {
		return nil
	}
	height := geometry.Millimetre(r.count(field)) / 100
	return &height
}

func (r *tallyReader) hollow(field string) Cut {
	flat, isFlat := strings.CutPrefix(field, "F")
	if !isFlat {
		if radius := r.height(field); radius != nil {
			return Cut{Radius: *radius}
		}
		return Cut{}
	}
	width, edge, _ := strings.Cut(flat, "X")
	w, e := r.height(width), r.height(edge)
	if w == nil || e == nil {
		r.fail("the tag's hollow is not whole")
		return Cut{}
	}
	cut := Cut{FlatWidth: *w, EdgeHeight: *e}
	if err := cut.Check(); err != nil {
		r.fail(err.Error()) // 3X and X3 have the same check digits
	}
	return cut
}

func (r *tallyReader) letters(field string) {
	if strings.Trim(field, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
		r.fail("the tag carries " + Clip(field) + " where a reason belongs")
	}
}

func (r *tallyReader) date(field string) {
	if field != "" && (!allDigits(field) || len(field) > 6 || len(field)%2 != 0) {
		r.fail("the tag carries " + Clip(field) + " where a date belongs")
	}
}
