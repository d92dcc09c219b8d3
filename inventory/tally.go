package inventory

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"steeltally/geometry"
)

// Tally is the text that the tag of a removed runner or holder carries in its QR symbol, so that a
// bin of tags is a backup. Its grammar, version 1, fields in this order:
//
//	T1.NUMBER.GENERATION.PLAYER.SWEATER SIDE.IN.OUT.NEW.FINAL.GRINDS.PASSES.HOLLOW.REASON.CHECK
//
// Only digits, capital letters and the full stop are used: all of them are in the QR
// alphanumeric set, and a scanner that types them needs no shift key on the usual
// keyboard layouts. PLAYER is station digit and running number of the player; SIDE is
// L, R or nothing; dates are YYMMDD, YYMM or YY, as vague as they are known; heights
// are hundredths of a millimetre; PASSES has a U behind it where works of unknown
// passes come on top; HOLLOW is its radius, or F flat width X edge height, in hundredths of a
// millimetre; REASON is the first three letters. What is unknown is empty. Fields of
// later versions stand between REASON and CHECK and are carried. CHECK is ISO 7064
// MOD 97-10 over everything before it, each character as the two digits of its QR
// alphanumeric value (A = 10 … Z = 35, as in ISO 17442).
type Tally struct {
	Piece      Number // a runner or a holder
	Generation int
	Player     Number
	Sweater    int
	Side       Side
	In, Out    string // YYMMDD, YYMM, YY or nothing
	New, Final *geometry.Millimetre
	Grinds     int
	Passes     int
	Unknown    bool // works of unknown passes come on top
	Hollow     Cut
	Reason     string   // three capital letters
	Later      []string // fields of a later version
}

const tallyVersion = "T1"

// String writes the tally with its check digits.
func (t Tally) String() string {
	player := ""
	if t.Player != 0 {
		player = fmt.Sprintf("%d%d", t.Player.Station(), t.Player.Running())
	}
	fields := []string{
		tallyVersion, t.Piece.String(), strconv.Itoa(t.Generation), player,
		unlessZero(t.Sweater) + sideLetter(t.Side), t.In, t.Out,
		hundredths(t.New), hundredths(t.Final), strconv.Itoa(t.Grinds),
		strconv.Itoa(t.Passes) + unknownMark(t.Unknown), tallyHollow(t.Hollow), t.Reason,
	}
	text := strings.Join(append(fields, t.Later...), ".") + "."
	return withTallyCheck(text)
}

// IsTally tells whether a scanned text starts as a tally of any version does.
func IsTally(text string) bool {
	return len(text) > 2 && text[0] == 'T' && text[1] >= '1' && text[1] <= '9' && strings.Contains(text, ".")
}

func unlessZero(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

func sideLetter(side Side) string {
	switch side {
	case Left:
		return "L"
	case Right:
		return "R"
	}
	return ""
}

func unknownMark(unknown bool) string {
	if unknown {
		return "U"
	}
	return ""
}

func hundredths(l *geometry.Millimetre) string {
	if l == nil {
		return ""
	}
	return strconv.Itoa(int(*l*100 + 0.5))
}

func tallyHollow(c Cut) string {
	if c.FlatWidth > 0 {
		return "F" + hundredths(&c.FlatWidth) + "X" + hundredths(&c.EdgeHeight)
	}
	return hundredths(nonZero(c.Radius))
}

func nonZero(l geometry.Millimetre) *geometry.Millimetre {
	if l == 0 {
		return nil
	}
	return &l
}

// TallyDate writes a time as a tally does: YYMMDD, YYMM, YY or nothing.
func TallyDate(w When, zone *time.Location) string {
	start, length := w.Start.In(zone), w.End.Sub(w.Start)
	switch {
	case w.Unknown():
		return ""
	case length <= 36*time.Hour:
		return start.Format("060102")
	case length <= 31*24*time.Hour+time.Hour:
		return start.Format("0601")
	}
	return start.Format("06")
}
