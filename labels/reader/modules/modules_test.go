package modules

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"steeltally/labels/symbol"
)

// fromRows reads a picture of modules, # dark.
func fromRows(rows ...string) *Matrix {
	m := NewMatrix(len(rows[0]), len(rows))
	for y, row := range rows {
		for x, c := range row {
			m.Set(Cell{x, y}, c == '#')
		}
	}
	return m
}

// fromSymbol copies a symbol made by the program's own encoder.
func fromSymbol(s symbol.Symbol) *Matrix {
	m := NewMatrix(s.Columns, s.Rows)
	for y := range s.Rows {
		for x := range s.Columns {
			m.Set(Cell{x, y}, s.Dark(x, y))
		}
	}
	return m
}

// TestStandardDataMatrix reads the worked example of ISO/IEC 16022, "123456".
func TestStandardDataMatrix(t *testing.T) {
	var rows []string
	for _, hex := range []uint{0xAA8, 0xCB4, 0xC10, 0xC74, 0xC20, 0x83C, 0xEC0, 0xF64, 0x9D0, 0xFFC} {
		rows = append(rows, strings.NewReplacer("0", ".", "1", "#").Replace(fmt.Sprintf("%012b", hex)[:10]))
	}
	m := fromRows(rows...)
	decoded, err := DecodeDataMatrix(m)
	if err != nil || decoded.Text != "123456" || decoded.Spare() != 1 {
		t.Fatalf("got %q, spare %v, %v", decoded.Text, decoded.Spare(), err)
	}
	words := readWords(m, decoded.Blocks[0].Words)
	if got, want := fmt.Sprint(words), "[142 164 186 114 25 5 88 102]"; got != want {
		t.Errorf("codewords %s, the standard says %s", got, want)
	}
}

// TestStandardQR reads "01234567" as 1-M; its codewords are those of ISO/IEC 18004,
// annex I.
func TestStandardQR(t *testing.T) {
	made, err := symbol.EncodeQR("01234567", "M", 1)
	if err != nil {
		t.Fatal(err)
	}
	m := fromSymbol(made)
	decoded, err := DecodeQR(m)
	if err != nil || decoded.Text != "01234567" || decoded.Spare() != 1 {
		t.Fatalf("got %q, spare %v, %v", decoded.Text, decoded.Spare(), err)
	}
	seen, err := readQR(m)
	if err != nil {
		t.Fatal(err)
	}
	want := "10 20 0c 56 61 80 ec 11 ec 11 ec 11 ec 11 ec 11 a5 24 d4 c1 ed 36 c7 87 2c 55"
	if got := fmt.Sprintf("% x", seen.words); got != want {
		t.Errorf("codewords %s, the standard says %s", got, want)
	}
}

// TestKnownModules holds the known modules to symbols of every size.
func TestKnownModules(t *testing.T) {
	checked := 0
	for side := LeastQRSide; side <= MostQRSide; side += QRSideStep {
		made, err := symbol.EncodeQR("1000042744", "L", qrVersion(side))
		if err != nil {
			t.Fatal(err)
		}
		checked += checkKnown(t, fromSymbol(made), KnownQR(side))
	}
	for _, size := range DataMatrixSizes() {
		checked += checkKnown(t, madeDataMatrix(t, size), KnownDataMatrix(size))
	}
	if checked < 3000 {
		t.Errorf("only %d modules were checked", checked)
	}
}

// checkKnown compares, and counts, the known modules inside a symbol.
func checkKnown(t *testing.T, m *Matrix, known []Known) int {
	t.Helper()
	inside := 0
	for _, k := range known {
		if k.Column < 0 || k.Row < 0 || k.Column == m.Columns || k.Row == m.Rows {
			if k.Dark {
				t.Errorf("%d × %d: dark quiet zone at %v", m.Columns, m.Rows, k.Cell)
			}
			continue
		}
		inside++
		if m.Dark(k.Cell) != k.Dark {
			t.Errorf("%d × %d: %v is known as dark=%v", m.Columns, m.Rows, k.Cell, k.Dark)
		}
	}
	return inside
}

// madeDataMatrix makes a symbol that fills a size with digits.
func madeDataMatrix(t *testing.T, size DataMatrixSize) *Matrix {
	t.Helper()
	shape := symbol.Square
	if size.Columns != size.Rows {
		shape = symbol.Rectangle
	}
	made, err := symbol.EncodeDataMatrix(digits(2*size.data), shape)
	if err != nil {
		t.Fatal(err)
	}
	if made.Columns != size.Columns || made.Rows != size.Rows {
		t.Fatalf("wanted %d × %d, was made %d × %d", size.Columns, size.Rows, made.Columns, made.Rows)
	}
	return fromSymbol(made)
}

func digits(n int) string { return strings.Repeat("1000042744", n/10+1)[:n] }

// TestDataMatrixCorrects spoils whole codewords of every size, as many as can be
// mended and one more.
func TestDataMatrixCorrects(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for _, size := range DataMatrixSizes() {
		for wrong := range size.check/2 + 2 {
			m := madeDataMatrix(t, size)
			clean, err := DecodeDataMatrix(m)
			if err != nil || clean.Text != digits(2*size.data) {
				t.Fatalf("%d × %d reads %q: %v", size.Columns, size.Rows, clean.Text, err)
			}
			spoil(m, clean.Blocks[0].Words, wrong, random)
			got, err := DecodeDataMatrix(m)
			checkMended(t, got, err, clean, wrong, size.check/2)
		}
	}
}

// spoil turns over one module in each of so many codewords.
func spoil(m *Matrix, words [][]Cell, wrong int, random *rand.Rand) {
	for _, i := range random.Perm(len(words))[:wrong] {
		cell := words[i][random.IntN(8)]
		m.Set(cell, !m.Dark(cell))
	}
}

func checkMended(t *testing.T, got Decoded, err error, clean Decoded, wrong, bearable int) {
	t.Helper()
	if wrong > bearable {
		if err == nil && got.Text == clean.Text {
			t.Errorf("%d wrong codewords were mended, %d are bearable", wrong, bearable)
		}
		return
	}
	if err != nil || got.Text != clean.Text {
		t.Errorf("%d wrong codewords of %d bearable: %q, %v", wrong, bearable, got.Text, err)
	}
	if want := 1 - float64(wrong)/float64(bearable); got.Spare() != want {
		t.Errorf("%d wrong codewords of %d bearable: spare %v, wanted %v", wrong, bearable, got.Spare(), want)
	}
}

// TestQRCorrects does the same for one block of every version and level.
func TestQRCorrects(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for version := 1; version <= 10; version++ {
		for _, level := range symbol.Levels() {
			made, err := symbol.EncodeQR("1000042744", level, version)
			if err != nil {
				t.Fatal(err)
			}
			clean, err := DecodeQR(fromSymbol(made))
			if err != nil || clean.Text != "1000042744" {
				t.Fatalf("%d-%s reads %q: %v", version, level, clean.Text, err)
			}
			bearable := clean.Blocks[0].Correctable
			for _, wrong := range []int{1, bearable, bearable + 1} {
				m := fromSymbol(made)
				spoil(m, clean.Blocks[0].Words, wrong, random)
				got, err := DecodeQR(m)
				checkMended(t, got, err, clean, wrong, bearable)
			}
		}
	}
}

// TestQRBearable compares with the standard's own numbers of codewords that may be
// mended (ISO/IEC 18004, table 9, from memory).
func TestQRBearable(t *testing.T) {
	for name, want := range map[string]int{"1L": 2, "1M": 4, "1Q": 6, "1H": 8, "2L": 4, "2M": 8, "3L": 7, "3M": 13} {
		made, err := symbol.EncodeQR("1000042744", symbol.Level(name[1:]), int(name[0]-'0'))
		if err != nil {
			t.Fatal(err)
		}
		decoded, err := DecodeQR(fromSymbol(made))
		if err != nil || decoded.Blocks[0].Correctable != want {
			t.Errorf("%s: %d codewords, wanted %d: %v", name, decoded.Blocks[0].Correctable, want, err)
		}
	}
}

// TestRandomModulesSayNothing tries random modules in the two smallest sizes: two
// in a million should pass for 10 × 10, one in ten million for 12 × 12.
func TestRandomModulesSayNothing(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for _, side := range []int{10, 12} {
		for range 5000 {
			bits := make([]byte, side*side/8+1)
			for i := range bits {
				bits[i] = byte(random.Uint32())
			}
			if got, err := DecodeDataMatrix(fromBits(side, side, bits)); err == nil {
				t.Errorf("random modules of %d × %d say %q", side, side, got.Text)
			}
		}
	}
}

// TestNoSuchSize refuses matrices of no symbol.
func TestNoSuchSize(t *testing.T) {
	if _, err := DecodeDataMatrix(NewMatrix(11, 12)); !errors.Is(err, ErrSize) {
		t.Errorf("Data Matrix: %v", err)
	}
	for _, side := range []int{0, 20, 22, 61} {
		if _, err := DecodeQR(NewMatrix(side, side)); !errors.Is(err, ErrSize) {
			t.Errorf("QR Code %d: %v", side, err)
		}
	}
}

// FuzzDecode wants no panic, whatever the modules are, and no more mended than is safe.
func FuzzDecode(f *testing.F) {
	f.Add(uint8(1), []byte("1000042744"))
	f.Fuzz(func(t *testing.T, kind uint8, bits []byte) {
		sizes := DataMatrixSizes()
		size := sizes[int(kind)%len(sizes)]
		side := LeastQRSide + int(kind)%10*QRSideStep
		matrix, matrixErr := DecodeDataMatrix(fromBits(size.Columns, size.Rows, bits))
		qr, qrErr := DecodeQR(fromBits(side, side, bits))
		if matrixErr == nil && matrix.Spare() < 0 || qrErr == nil && qr.Spare() < 0 {
			t.Errorf("mended beyond safety: %q, %q", matrix.Text, qr.Text)
		}
	})
}

func fromBits(columns, rows int, bits []byte) *Matrix {
	m := NewMatrix(columns, rows)
	for i := range m.dark {
		m.dark[i] = i/8 < len(bits) && bits[i/8]>>(i%8)&1 == 1
	}
	return m
}
