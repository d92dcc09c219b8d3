package station

import "testing"

// TestALineThatThePageHeardHalfOf is not taken, whatever the half of it reads.
func TestALineThatThePageHeardHalfOf(t *testing.T) {
	number := "4100000172"
	for _, c := range []struct {
		what         string
		begins       float64 // ms since the page is there
		want, unsaid string
	}{
		{"00172", 20, "", "1"}, {"17", 299, "", "1"}, {"", 0, "", "1"}, {"", 299, "", "1"}, {"1.10", 10, "", "1"}, {"b6", -5000, "", "1"},
		{number, 20, number, ""}, {"]C1" + number, -50, "]C1" + number, ""}, {"T1.1000042744.1", 0, "T1.1000042744.1", ""},
		{"17", 300, "17", ""}, {"", 300, "", ""}, {"11.10", 400, "11.10", ""},
	} {
		p := newBench(t).open(&store{})
		p.run(`let lines = [], unheard = ""; keys.send = (line) => lines.push(line); keys.unheard = () => { unheard += "1"; }; keys.hear(10000)`)
		at := 10000 + c.begins
		for _, key := range append(typedKeys(c.what), [2]string{"Enter", "Enter"}, [2]string{"Enter", "Enter"}) { // a device's end
			p.set("key", map[string]any{"key": key[0], "code": key[1], "timeStamp": at})
			p.run(`keys.key(key)`)
			at += 20
		}
		lines, unheard := p.run(`lines.join("|")`).String(), p.run("unheard").String()
		if lines != c.want || unheard != c.unsaid {
			t.Errorf("%q %v ms after the page was there: %q taken, %q not", c.what, c.begins, lines, unheard)
		}
	}
	// What stands in the line was typed before the page was there; what is pasted, after.
	p := newBench(t).open(&store{})
	p.run(`let lines = [], unheard = ""; keys.send = (line) => lines.push(line); keys.unheard = () => { unheard += "1"; };
		keys.input.value = "41000"; keys.hear(10000); keys.input.value += "b6"; keys.pasted(); keys.key({ key: "Enter", timeStamp: 10500 })`)
	if lines, unheard := p.run(`lines.join("|")`).String(), p.run("unheard").String(); lines != "b6" || unheard != "1" {
		t.Errorf("%q taken, %q not", lines, unheard)
	}
}
