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

// TallyWhen reads a date as a tally carries it (YYMMDD, YYMM, YY or nothing) in a zone.
// The years are 2000 to 2099.
func TallyWhen(text string, zone *time.Location) (When, error) {
	if text == "" {
		return When{}, nil
	}
	for _, form := range [...]struct {
		layout string
		unit   vagueUnit
	}{{"060102", vagueUnits[0]}, {"0601", vagueUnits[1]}, {"06", vagueUnits[2]}} {
		if len(text) != len(form.layout) {
			continue
		}
		start, err := time.ParseInLocation("20"+form.layout, "20"+text, zone)
		if err != nil {
			break
		}
		return Between(start, start.AddDate(form.unit.years, form.unit.months, form.unit.days)), nil
	}
	return When{}, fmt.Errorf("%s is no date", Clip(text))
}

// Facts are what the tally says, with its dates in the club's zone.
func (t Tally) Facts(zone *time.Location) (TagFacts, error) {
	facts := TagFacts{KnownFromTag: KnownFromTag{
		Piece: t.Piece, Generation: t.Generation, Player: t.Player, Sweater: t.Sweater, Side: t.Side,
		New: t.New, Final: t.Final, Grinds: t.Grinds, Passes: t.Passes, Unknown: t.Unknown,
		Reason: reasonOfTally(t), Later: t.Later,
	}}
	if !t.Hollow.Unknown() {
		facts.Hollow = &t.Hollow
	}
	var err error
	if facts.In, err = TallyWhen(t.In, zone); err != nil {
		return facts, fmt.Errorf("the date on which it went in: %w", err)
	}
	if facts.Out, err = TallyWhen(t.Out, zone); err != nil {
		return facts, fmt.Errorf("the date on which it came off: %w", err)
	}
	if !facts.Out.Unknown() && facts.In.After(facts.Out.End) {
		return facts, fmt.Errorf("it came off before it went in")
	}
	return facts, facts.check()
}

// check refuses heights that no steel has; a tag whose check digits fit carries them
// only where somebody made it up.
func (f *TagFacts) check() error {
	for what, height := range map[string]*geometry.Millimetre{"height new": f.New, "final height": f.Final} {
		if height != nil {
			if err := CheckHeight(what, *height); err != nil {
				return err
			}
		}
	}
	return nil
}

// Tally is the text of a tag with these facts.
func (f *TagFacts) Tally(zone *time.Location) Tally {
	t := Tally{
		Piece: f.Piece, Generation: f.Generation, Player: f.Player, Sweater: f.Sweater, Side: f.Side,
		In: TallyDate(f.In, zone), Out: TallyDate(f.Out, zone), New: f.New, Final: f.Final,
		Grinds: f.Grinds, Passes: f.Passes, Unknown: f.Unknown, Reason: f.Reason.Tally(), Later: f.Later,
	}
	if f.Hollow != nil {
		t.Hollow = *f.Hollow
	}
	return t
}

const tallyReasonLetters = 3

// Tally is the word as a tally carries it: its first three letters.
func (w Why) Tally() string {
	word := strings.ToUpper(string(w))
	return word[:min(tallyReasonLetters, len(word))]
}

// reasonOfTally is the word that a tally's reason stands for: a reason for a runner, a
// mode of damage for a holder. Where none or several begin so, it is what stands there.
func reasonOfTally(t Tally) Why {
	words := Texts(reasons)
	if t.Piece.Kind() == KindHolder {
		words = Texts(modes)
	}
	found := Why("")
	for _, word := range words {
		if Why(word).Tally() != t.Reason {
			continue
		}
		if found != "" {
			return Why(strings.ToLower(t.Reason))
		}
		found = Why(word)
	}
	if found == "" {
		return Why(strings.ToLower(t.Reason))
	}
	return found
}

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
