package inventory_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

// randomTally is a random one such as a tag can carry.
func randomTally(c inventorytest.Chance) inventory.Tally {
	piece, _ := inventory.NewNumber([]inventory.Kind{inventory.KindRunner, inventory.KindHolder}[c.IntN(2)], c.IntN(10), 1+c.IntN(inventory.MaxRunning))
	player, _ := inventory.NewNumber(inventory.KindPlayer, c.IntN(10), 1+c.IntN(inventory.MaxRunning))
	t := inventory.Tally{
		Piece: piece, Generation: c.IntN(12), Player: player, Sweater: c.IntN(100),
		Side: []inventory.Side{inventory.Left, inventory.Right, ""}[c.IntN(3)], In: randomTallyDate(c), Out: randomTallyDate(c),
		New: randomTallyHeight(c), Final: randomTallyHeight(c), Grinds: c.IntN(400), Passes: c.IntN(3000), Unknown: c.IntN(2) == 0,
		Hollow: randomTallyHollow(c), Reason: []string{"LOW", "BRO", "CRA", ""}[c.IntN(4)],
	}
	if c.IntN(4) == 0 {
		t.Player = 0
	}
	for range c.IntN(3) {
		t.Later = append(t.Later, []string{"", "X7", "2511"}[c.IntN(3)])
	}
	return t
}

func randomTallyDate(c inventorytest.Chance) string {
	return []string{"", "25", "2511", "251104", "260131"}[c.IntN(5)]
}

func randomTallyHeight(c inventorytest.Chance) *geometry.Millimetre {
	if c.IntN(5) == 0 {
		return nil
	}
	return tallyMillimetres(float64(500+c.IntN(2500)) / 100)
}

func randomTallyHollow(c inventorytest.Chance) inventory.Cut {
	switch c.IntN(4) {
	case 0:
		return inventory.Cut{}
	case 1:
		return inventory.Cut{FlatWidth: geometry.Millimetre(100+c.IntN(500)) / 100, EdgeHeight: geometry.Millimetre(1+c.IntN(30)) / 100}
	}
	return inventory.Cut{Radius: geometry.Millimetre(400+c.IntN(5000)) / 100}
}

func TestTalliesAreReadAsTheyWereWritten(t *testing.T) {
	c := inventorytest.NewChance(t, ".", 40)
	for range 5000 {
		want := randomTally(c)
		text := want.String()
		got, err := inventory.ParseTally(text)
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Fatalf("%s: %v\ngot  %+v\nwant %+v", text, err, got, want)
		}
		if n, err := inventory.ScannedNumber(" " + text + "\n"); err != nil || n != want.Piece {
			t.Fatalf("%s: scanned %s, %v", text, n, err)
		}
		if strings.Trim(text, "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ.") != "" {
			t.Fatalf("%s needs a shift key or is no QR alphanumeric text", text)
		}
		if first := firstTenDigits(text); first != want.Piece.String() {
			t.Fatalf("%s: its first run of ten digits is %q", text, first)
		}
	}
}

// firstTenDigits is the first run of exactly ten digits in a text.
func firstTenDigits(text string) string {
	for _, run := range strings.FieldsFunc(text, func(r rune) bool { return r < '0' || r > '9' }) {
		if len(run) == 10 {
			return run
		}
	}
	return ""
}

// Two digits for every character leave no single wrong character and no swap of two
// neighbours uncaught: 100 and 99·d are no multiples of 97 for any difference d < 45.
func TestEveryWrongCharacterAndSwapIsCaught(t *testing.T) {
	c := inventorytest.NewChance(t, ".", 41)
	wrong, swapped := 0, 0
	refuse := func(text, was string) {
		if _, err := inventory.ParseTally(text); inventory.TallyFits(text) || err == nil {
			t.Errorf("%s is read from a damaged %s", text, was)
		}
	}
	for range 60 {
		want := randomTally(c)
		want.Later = nil
		text := want.String()
		for i := range text {
			for j := range inventory.QRAlphanumeric {
				if inventory.QRAlphanumeric[j] != text[i] {
					refuse(text[:i]+inventory.QRAlphanumeric[j:j+1]+text[i+1:], text)
					wrong++
				}
			}
			if i > 0 && text[i-1] != text[i] {
				refuse(text[:i-1]+text[i:i+1]+text[i-1:i]+text[i+1:], text)
				swapped++
			}
		}
	}
	if wrong < 100_000 || swapped < 2_000 {
		t.Errorf("%d wrong characters and %d swaps: that tries too little", wrong, swapped)
	}
}

// The check digits by hand: A, 1 and the full stop are 10, 01 and 42, so that the
// digits are 100142, and 10014200 leaves 17 when divided by 97, and 98 − 17 = 81.
func TestTallyCheckByHand(t *testing.T) {
	if got, want := inventory.WithTallyCheck("A1."), "A1.81"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestHowLongATallyIs(t *testing.T) {
	piece, _ := inventory.NewNumber(inventory.KindRunner, 1, 1427)
	player, _ := inventory.NewNumber(inventory.KindPlayer, 1, 17)
	typical := inventory.Tally{
		Piece: piece, Generation: 1, Player: player, Sweater: 17, Side: inventory.Left, In: "251104", Out: "251128",
		New: tallyMillimetres(11.9), Final: tallyMillimetres(9.4), Grinds: 41, Passes: 205, Hollow: inventory.Cut{Radius: 12.7}, Reason: "LOW",
	}
	text := typical.String()
	t.Logf("typical: %s, %d characters", text, len(text))
	if len(text) > 67 {
		t.Errorf("%d characters", len(text))
	}
	piece, _ = inventory.NewNumber(inventory.KindRunner, 9, inventory.MaxRunning)
	player, _ = inventory.NewNumber(inventory.KindPlayer, 9, inventory.MaxRunning)
	most := inventory.Tally{
		Piece: piece, Generation: 99, Player: player, Sweater: 99, Side: inventory.Right, In: "251104", Out: "251128",
		New: tallyMillimetres(30), Final: tallyMillimetres(29.99), Grinds: 999, Passes: 9999, Unknown: true, Hollow: inventory.Cut{FlatWidth: 6, EdgeHeight: 0.99}, Reason: "CRA",
	}
	text = most.String()
	t.Logf("most: %s, %d characters", text, len(text))
	if len(text) > 90 { // a version 4-M QR code holds 90
		t.Errorf("%d characters", len(text))
	}
	if _, err := inventory.ParseTally(text); err != nil {
		t.Error(err)
	}
}

// A later version adds fields; what it adds is carried, and its own number too.
func TestTalliesOfALaterVersion(t *testing.T) {
	text := inventory.WithTallyCheck("T2.1000042744.1.117.17L.2511.25.1190..4.U.1270.LOW.NEW.7.")
	if _, err := inventory.ParseTally(text); err == nil {
		t.Error("unknown passes without a count are no version 1")
	}
	text = inventory.WithTallyCheck("T2.1000042744.1.117.17L.2511.25.1190..4.0U.1270.LOW.NEW.7.")
	tally, err := inventory.ParseTally(text)
	if err != nil || !reflect.DeepEqual(tally.Later, []string{"NEW", "7"}) {
		t.Fatalf("%+v, %v", tally, err)
	}
}

func TestTextsThatAreNoTally(t *testing.T) {
	least := []string{"T1", "1000042744", "1", "", "", "", "", "", "", "0", "0", "", ""}
	text := func(field int, value string) string {
		fields := slices.Clone(least)
		fields[field] = value
		return inventory.WithTallyCheck(strings.Join(fields, ".") + ".")
	}
	if _, err := inventory.ParseTally(text(1, least[1])); err != nil {
		t.Fatalf("the least that a tally can say is not read: %v", err)
	}
	for _, wrong := range []struct {
		field  int
		value  string
		reason string
	}{
		{0, "T0", "not whole"}, {0, "X1", "not whole"}, {0, "T11", "not whole"}, {0, "", "not whole"},
		{1, "7100000134", "runner or holder"}, {1, "1000042745", "runner or holder"}, {1, "", "runner or holder"},
		{2, "01", "where a count"}, {2, "", "where a count"}, {2, "1X", "where a count"},
		{3, "0", "player's number"}, {3, "10", "player's number"}, {3, "101", "player's number"}, {3, "11000000", "player's number"}, {3, "1A", "player's number"},
		{4, "100R", "sweater"}, {4, "0L", "sweater"}, {4, "17Q", "where a count"},
		{5, "25110", "where a date"}, {6, "2511041", "where a date"}, {6, "NOV", "where a date"},
		{7, "-5", "where a count"}, {8, "09", "where a count"}, {9, "", "where a count"}, {10, "U", "where a count"}, {10, "5UU", "where a count"},
		{11, "F230", "hollow is not whole"}, {11, "F50X34", "no wheel's"}, {11, "X", "where a count"}, {12, "L0W", "where a reason"},
	} {
		if tally, err := inventory.ParseTally(text(wrong.field, wrong.value)); err == nil || !strings.Contains(err.Error(), wrong.reason) {
			t.Errorf("%s: %+v, %v, want: %s", text(wrong.field, wrong.value), tally, err, wrong.reason)
		}
	}
	good := text(1, least[1])
	for _, form := range []string{"", "T1", good[:len(good)-1], good + ".", good + "0", strings.ToLower(good), "T1." + good, good[:20]} {
		if tally, err := inventory.ParseTally(form); err == nil {
			t.Errorf("%q is read as %+v", form, tally)
		}
	}
}

func FuzzTally(f *testing.F) {
	c := inventorytest.Chance{Rand: inventorytest.NewRand(42)}
	for range 20 {
		f.Add(randomTally(c).String())
	}
	f.Add("T1.1534493538.0.2337994.68.25.260131...415.20U.4342..98") // the rest that 01 leaves, too
	f.Fuzz(func(t *testing.T, text string) {
		tally, err := inventory.ParseTally(text)
		if err != nil {
			return
		}
		again := tally.String()
		if strings.HasPrefix(text, inventory.TallyVersion) && again != text {
			t.Fatalf("%q is written as %q", text, again)
		}
		if got, err := inventory.ParseTally(again); err != nil || !reflect.DeepEqual(got, tally) {
			t.Fatalf("%q came back as %+v, %v", again, got, err)
		}
	})
}

// Every reason and every mode comes back from three letters, or stays as it stands.
func TestReasonsOfTallies(t *testing.T) {
	runner, _ := inventory.NewNumber(inventory.KindRunner, 1, 1)
	holder, _ := inventory.NewNumber(inventory.KindHolder, 1, 1)
	for _, word := range inventory.Reasons() {
		if got := inventory.ReasonOfTally(inventory.Tally{Piece: runner, Reason: inventory.Why(word).Tally()}); got != inventory.Why(word) {
			t.Errorf("%s comes back as %s", word, got)
		}
	}
	for _, word := range inventory.Texts(inventory.Modes()) {
		got := string(inventory.ReasonOfTally(inventory.Tally{Piece: holder, Reason: inventory.Why(word).Tally()}))
		if ambiguous := strings.HasPrefix(word, "loose"); got != word && !(ambiguous && got == "loo") {
			t.Errorf("%s comes back as %s", word, got)
		}
	}
}

func tallyMillimetres(value float64) *geometry.Millimetre {
	length := geometry.Millimetre(value)
	return &length
}
