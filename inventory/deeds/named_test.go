package deeds

import (
	"testing"

	"steeltally/inventory"
)

// A name is known by three letters of any of its words, with accents or without; fewer
// are a key.
func TestNamesOfThreeLetters(t *testing.T) {
	for name, typed := range map[string][]string{
		"Åse Øverdahl-Šimunek": {"overd", "SIMUNEK", "øver", "simunek åse", "]Q1Ase"},
		"Ase Overdahl":         {"Åse", "Øverdahl"},
		"Ansgar Lindqvarn":     {"Lin", "lindqvarn ans", "ans l"},
		"Tove Straße":          {"strasse", "TOVE S"},
		"O'Hafn Æsk":           {"ohafn", "o’hafn", "aesk"},
		"Rene\u0301 Vik":       {"rené", "Rene"},
		"Złota Ćma":            {"zlota", "cma"},
	} {
		d := openBook(t)
		n := d.give(AddPlayer{Name: name, Position: "forward"})
		for _, text := range typed {
			d.names(text, "2 09:00", n)
		}
	}
	for name, typed := range map[string][]string{
		"Ansgar Lindqvarn": {"a", "L", "li", "a l", "lin:d", "\xa5lin", "qvarn", "gar", "ansgar m", "--", ""},
		"Bo Hagelund":      {"bo", "B", "bo "},
		"Éa Ö":             {"éa"},
		"Glo":              {"g", "l", "h", "gl"},
	} {
		d := openBook(t)
		d.give(AddPlayer{Name: name, Position: "forward"})
		for _, text := range typed {
			d.namesNobody(text, "2 09:00", "nobody is known as")
		}
	}
}

// A name of two stands for neither of them.
func TestANameOfTwo(t *testing.T) {
	d := openBook(t)
	give := func(name string) inventory.Number { return d.give(AddPlayer{Name: name, Position: "forward"}) }
	marta, _, odd := give("Märta Vikholm"), give("Marta Vikholm"), give("Odd Vikholm")
	d.namesNobody("vik", "2 09:00", "vik can be any of 3 players")
	d.namesNobody("mart", "2 09:00", "can be any of 2 players")
	d.names("odd v", "2 09:00", odd)
	d.names("märta vikholm", "2 09:00", marta)
}
