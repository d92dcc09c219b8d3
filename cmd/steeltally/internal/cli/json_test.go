package cli

import (
	"strings"
	"testing"
)

func TestOneObjectOfAllParts(t *testing.T) {
	var out strings.Builder
	yes := true
	v := &voice{out: &out, json: &yes}
	for want, parts := range map[string][]any{
		`{"number":"1100000177","trip":"Rime Point"}`:  {answer{Number: 1100000177}, answer{}, answer{Trip: "Rime Point"}},
		`{"trip":"\"height_mm\":1.23456 <&>"}`:         {answer{}, answer{Trip: `"height_mm":1.23456 <&>`}},
		`{}`:                                           {answer{}},
		`{"height_mm":20.58}`:                          {lengthsOf{Height: 20.580000000000002}},
		`{"height_mm":0,"loss_mm_per_pass":0.0191234}`: {lengthsOf{Height: -0.0000001, Loss: 0.0191234}},
		`{"height_mm":1,"felt_mm":{"left":9.123,"right":null},"corners_mm":[1,2.001,0]}`: {
			lengthsOf{Height: 1, Felt: &sides{Left: 9.1234999}, Corners: []float64{1, 2.0009999, 1e-9}},
		},
	} {
		out.Reset()
		if err := v.told(parts...); err != nil || out.String() != want+"\n" {
			t.Errorf("%v is %swant %s", parts, out.String(), want)
		}
	}
	out.Reset()
	if err := v.computed(lengthsOf{Height: 0.08304711}, "the depth"); err != nil || out.String() != `{"height_mm":0.08304711,"meaning":"the depth"}`+"\n" {
		t.Errorf("a computed result is %s", out.String())
	}
}

type sides struct {
	Left  float64  `json:"left"`
	Right *float64 `json:"right"`
}

type lengthsOf struct {
	Height  float64   `json:"height_mm"`
	Loss    float64   `json:"loss_mm_per_pass,omitempty"`
	Felt    *sides    `json:"felt_mm,omitempty"`
	Corners []float64 `json:"corners_mm,omitempty"`
}

func TestAnObjectSaysThatNobodyMaySkateOnWhatItNames(t *testing.T) {
	unsafe := func(text string) bool { return strings.Contains(text, "1100000177") }
	for given, want := range map[string]string{
		`{"number":"1100000177","height_mm":9.1}`:                                      `{"number":"1100000177","height_mm":9.1,"do_not_skate":true}`,
		`{"a":[{"pair":"3100000109","unsafe":["1100000177"]},{"b":1}],"c":{}}`:         `{"a":[{"pair":"3100000109","unsafe":["1100000177"],"do_not_skate":true},{"b":1}],"c":{}}`,
		`{"number":"2100000143","runner":"1100000177"}`:                                `{"number":"2100000143","runner":"1100000177"}`,
		`{"runner":"1100000177","number":"7100000167"}`:                                `{"runner":"1100000177","number":"7100000167","do_not_skate":true}`,
		`{"number":"1100000177","do_not_skate":false}`:                                 `{"number":"1100000177","do_not_skate":false}`,
		`{"event":"3@1","body":{"runner":"1100000177"},"x":{"n":"1100000177"}}` + "\n": `{"event":"3@1","body":{"runner":"1100000177"},"x":{"n":"1100000177","do_not_skate":true}}` + "\n",
	} {
		if got := warned(given, unsafe); got != want {
			t.Errorf("%s\nis %s\nwant %s", given, got, want)
		}
	}
}
