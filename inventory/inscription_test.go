package inventory_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

// asRead says a reading: "17 left, Nov 2024", a guessed year with a ?, heights and strokes.
func asRead(i inventory.Inscription) string {
	said := fmt.Sprintf("%d %s, %s", i.Sweater, i.Side, i.When.SayDay(time.UTC))
	if i.Sweater == 0 {
		said = said[2:]
	}
	if i.Last {
		said += "?"
	}
	if i.Heights != "" {
		said += ", " + i.Heights + " mm"
	}
	return strings.TrimPrefix(strings.TrimSuffix(strings.Join([]string{said, inventory.SayStrokes(i.Text)}, ", "), ", "), ", ")
}

// What a marker pen wrote, all ways to read it (parted by |), or why it is refused. It is
// 15 December 2025.
func TestReadInscription(t *testing.T) {
	for text, want := range map[string]string{
		// sweater, side and date in any order
		"17 L nov 24": "17 left, Nov 2024", "nov 24 L 17": "17 left, Nov 2024", "L17 nov 24": "17 left, Nov 2024",
		"17l1124": "17 left, Nov 2024", "17R324": "17 right, Mar 2024", "8 right nov 23": "8 right, Nov 2023", "R8 NOV23": "8 right, Nov 2023",
		"L 31 2024": "31 left, 2024", "31 24": "31 , 2024", "2024 31 L": "31 left, 2024", "17 L 24/25": "17 left, 1 Sep 2024 to 31 Aug 2025",
		"24/25 17L": "17 left, 1 Sep 2024 to 31 Aug 2025", "2024/25 17L": "17 left, 1 Sep 2024 to 31 Aug 2025", "17L 24-25": "17 left, 1 Sep 2024 to 31 Aug 2025",
		"17L 28.11.24": "17 left, 28 Nov 2024", "17L 11/28/24": "17 left, 28 Nov 2024", "17L281124": "17 left, 28 Nov 2024",
		"17L 2024-11-28": "17 left, 28 Nov 2024", "2024-11-24 17 L": "17 left, 24 Nov 2024", "24.11.2024 17 L": "17 left, 24 Nov 2024",
		"17 L 24.11.24": "17 left, 24 Nov 2024", "24.11. 17 L": "17 left, 24 Nov 2025?", "17 L 24. 11.": "17 left, 24 Nov 2025?", "17 L 28.12.": "17 left, 28 Dec 2024?",
		"17L 28 nov 24": "17 left, 28 Nov 2024", "17L 28nov24": "17 left, 28 Nov 2024", "28 Nov 24 L 17": "17 left, 28 Nov 2024", "28. Nov. '24 17L": "17 left, 28 Nov 2024",
		"17L Nov 28 2024": "17 left, 28 Nov 2024", "17 L 28 nov": "17 left, 28 Nov 2025?", "17 L Nov 3": "17 left, 3 Nov 2025?", "17 L Dec": "17 left, Dec 2025?",
		"17 L 28th Nov 24": "17 left, 28 Nov 2024", "17 L 11.2024": "17 left, Nov 2024", "17 L 20241128": "17 left, 28 Nov 2024", "17 L 24/11": "17 left, 24 Nov 2025?",
		"17L 5/5/24": "17 left, 5 May 2024", "17 L 29 Feb": "17 left, 29 Feb 2024?", "19 Feb 11 9 R": "9 right, 19 Feb 2011", "9 R 19 Feb 11": "9 right, 19 Feb 2011",
		// the sweater said otherwise
		"#38 L nov 24": "38 left, Nov 2024", "No 9 R 24.11.24": "9 right, 24 Nov 2024", "no. 9 R": "9 right, date unknown", "Nr.9 LH": "9 left, date unknown",
		"G30 R": "30 right, date unknown", "G 30 24.11.": "30 , 24 Nov 2025?", "LH9 nov 24": "9 left, Nov 2024", "rh 4": "4 right, date unknown", "9 feb 11 #38": "38 , 9 Feb 2011",
		// strokes, heights and words
		"17 L / nov 24": "17 left, Nov 2024, stroke /: the pair before", "17/ R": "17 right, date unknown, stroke /: the pair before",
		"// 17/L 24.11.24": "17 left, 24 Nov 2024, strokes //: 2 pairs before", "17 R //// 28.3.24": "17 right, 28 Mar 2024, strokes ////: 4 pairs before",
		"17 R IIII IIII": "17 right, date unknown, strokes IIII IIII (8)", "17 L 11/28/24 /": "17 left, 28 Nov 2024, stroke /: the pair before",
		"17 L 9.4": "17 left, date unknown, 9.4 mm", "17 L 9.40": "17 left, date unknown, 9.40 mm", "11.2 17 L": "17 left, date unknown, 11.2 mm", "17 L 9 mm nov 24": "17 left, Nov 2024, 9 mm",
		"17 L 9,4 9.6 24.11.": "17 left, 24 Nov 2025?, 9,4 9.6 mm", "#17 L low": "17 left, date unknown", "bin 4 III": "date unknown, strokes III (3)", "17 L lot 4471": "17 left, date unknown",
		"LARS 17": "date unknown", "17 L low 28 nov 24": "17 left, 28 Nov 2024", "17 L [31/31]": "17 left, date unknown", "17, L, worn": "17 left, date unknown",
		"17 L": "17 left, date unknown", "R": "right, date unknown", "nov 24": "Nov 2024", "": "date unknown", "???": "date unknown", "24.11.24": "24 Nov 2024",
		"8r23": "8 right, 2023", "28 Nov 24L 17": "17 left, 28 Nov 2024", "17 L 3.4.": "17 left, 3 Apr 2025?",
		// two ways or more
		"nov 17L": "17 left, Nov 2025? | left, Nov 2017", "17 L 24-11": "17 left, 24 Nov 2025? | 17 left, Nov 2024",
		"17 L 11/24": "17 left, 24 Nov 2025? | 17 left, Nov 2024", "LH 9 11/24": "9 left, 24 Nov 2025? | 9 left, Nov 2024", "11/24 17 L": "17 left, 24 Nov 2025? | 17 left, Nov 2024",
		"17 L 3/4/24": "17 left, 3 Apr 2024 | 17 left, 4 Mar 2024", "17 R 3-24": "17 right, 24 Mar 2025? | 17 right, Mar 2024", "17 L 24-11-23": "17 left, 24 Nov 2023 | 17 left, 23 Nov 2024",
		"17 L 5/11": "17 left, 5 Nov 2025? | 17 left, 11 May 2025? | 17 left, May 2011", "17 L 11.24": "17 left, 24 Nov 2025? | 17 left, Nov 2024 | 17 left, date unknown, 11.24 mm",
		"9 Feb 11": "11 , 9 Feb 2025? | 9 Feb 2011 | 9 , Feb 2011", "L 17 nov 24": "24 left, 17 Nov 2025? | left, 17 Nov 2024 | 17 left, Nov 2024", "R 8 nov 23": "23 right, 8 Nov 2025? | right, 8 Nov 2023 | 8 right, Nov 2023",
		"17 L bin 4": "4 left, 2017 | 17 left, date unknown", "17 38 L": "38 left, 2017", "5 10 L": "left, 5 Oct 2025? | left, 10 May 2025? | left, May 2010 | 5 left, 2010", "17 24 L": "24 left, 2017 | 17 left, 2024", "Nov 24 17 L": "17 left, Nov 2024 | left, 24 Nov 2017", "19 Feb 9 R": "9 right, 19 Feb 2025? | 19 right, 9 Feb 2025?",
		"LARS 17 L": "left, date unknown | 17 left, date unknown", "L 24.11. 17": "17 left, 24 Nov 2025? | left, 24 Nov 2017",
		// hopeless
		"17 38 53 L": "two sweaters", "17 L R": "left and right", "17 L 31/02/24": "no date that has been", "17 L 13/24": "no date that has been", "17 L 28.11.27": "no date that has been",
		"117 L": "may be anything", "0 L": "sweaters go from 1 to 99", "#117 L": "sweaters go from 1 to 99", "1124": "may be anything", "17 L nov 23 nov 24": "two dates",
		"17-11/24 L": "no date that has been", "17 L 45597": "no date that has been", "L 19 Dec 2025": "still to come", "17 L 9.4/9.6": "no date that has been", "17 L 24 11 24 24": "two dates",
	} {
		var got []string
		ways, err := inventory.ReadInscription(text, nil, inventorytest.Now(), time.UTC)
		for _, way := range ways {
			got = append(got, asRead(way))
		}
		if said := strings.Join(got, " | "); err == nil && said != want || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %s, %v; want %s", text, said, err, want)
		}
	}
}

// What is known of a hand decides, for two groups of digits and for three.
func TestHandsDecideDates(t *testing.T) {
	for _, c := range []struct{ hand, text, want string }{
		{"md", "17 L 11/24", "24 Nov 2025"}, {"my", "17 L 11/24", "Nov 2024"}, {"dm", "17 L 11/24", "Nov 2024"}, {"dm", "17 L 3/4/24", "3 Apr 2024"}, {"mdy", "17 L 3/4/24", "4 Mar 2024"},
		{"my", "17 L 3/4/24", "3 Apr 2024 4 Mar 2024"}, {"my,dm", "17 L 3/4/24", "3 Apr 2024"}, {"dm my", "17 L 3/11", "3 Nov 2025"}, {"my,dm", "17 L 3/11", "Mar 2011"},
		{"ym", "17 L 24-11-23", "23 Nov 2024"}, {"mm", "17 L 11.24", "date unknown"}, {"md", "17 L 24/11", "refused"}, {"md", "17 L 24.11.24", "refused"}, {"md", "17 L 28 nov 24", "28 Nov 2024"},
	} {
		hand, err := inventory.ParseDateOrders(c.hand)
		if err != nil {
			t.Fatal(err)
		}
		got := "refused"
		if ways, err := inventory.ReadInscription(c.text, hand, inventorytest.Now(), time.UTC); err == nil {
			got = ""
			for _, way := range ways {
				got += " " + way.When.SayDay(time.UTC)
			}
		}
		if strings.TrimSpace(got) != c.want {
			t.Errorf("%q by %s: %s, want %s", c.text, c.hand, got, c.want)
		}
	}
}

// parts are what an inscription is put together from, a sweater or none, and a date.
func parts(random *rand.Rand) (sweater int, text string) {
	pick := func(all ...string) string { return all[random.IntN(len(all))] }
	day := time.Date(2008+random.IntN(18), time.Month(1+random.IntN(12)), 1+random.IntN(28), 0, 0, 0, 0, time.UTC)
	if random.IntN(3) > 0 {
		sweater = 1 + random.IntN(inventory.MostSweater)
	}
	date := day.Format(pick("02/01", "2/1", "01/02", "01/06", "1/06", "2/1/06", "1/2/06", "02.01.06", "2.1.2006", "2006-01-02", "06-01-02", "02.01.", "2.1.", "2 Jan 06", "2 Jan", "2Jan06", "Jan 06", "Jan 2",
		"Jan 2 06", "Jan 2 2006", "2 Jan 2006", "2006", "06", "01.2006", "020106", "02012006", "0106", "02. 01.", "2. Jan 06", "2 1 06", "2 1"))
	if sweater == 0 && len(date) == 2 {
		date = "" // two digits alone are a sweater by any reading
	}
	written := []string{date, pick("", "L", "R", "LH", "right"), pick("", "/", "//", "III", "low", "9.4")}
	if sweater != 0 {
		written = append(written, fmt.Sprintf(pick("%d", "%d", "#%d", "No %d", "G%d"), sweater))
	}
	random.Shuffle(len(written), func(i, j int) { written[i], written[j] = written[j], written[i] })
	return sweater, strings.Join(written, " ")
}

// A sweater never comes from the date: of whatever is written, the one reading that is
// taken unasked has the sweater that is there, or none.
func TestNoSweaterComesFromADate(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 24))
	taken, asked, refused := 0, 0, 0
	for range 40_000 {
		sweater, text := parts(random)
		ways, err := inventory.ReadInscription(text, nil, inventorytest.Now(), time.UTC)
		switch {
		case err != nil:
			refused++
		case len(ways) > 1:
			asked++
			if sweater != 0 && !strings.Contains(text, "low ") && !slices.ContainsFunc(ways, func(i inventory.Inscription) bool { return i.Sweater == sweater }) {
				t.Errorf("%q: sweater %d is in no reading: %v", text, sweater, ways)
			}
		case ways[0].Sweater != 0 && ways[0].Sweater != sweater:
			t.Errorf("%q: sweater %d, want %d", text, ways[0].Sweater, sweater)
		default:
			taken++
		}
	}
	t.Logf("%d taken, %d asked about, %d refused", taken, asked, refused)
	if taken < 10_000 || asked < 5_000 || refused == 0 {
		t.Error("nearly nothing was read, or nearly nothing was doubtful")
	}
}

// Whatever is written, reading it gives nothing that can't be.
func FuzzReadInscription(f *testing.F) {
	for _, seed := range []string{"17 L 11/24", "17l1124", "8 right nov 23", "17L 28.11.24", "24/25", "9999/99/99", "G30 // 9.40 [x] 2 Jan 06 R"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		ways, err := inventory.ReadInscription(text, nil, inventorytest.Now(), time.UTC)
		if (err == nil) != (len(ways) > 0) || len(ways) > inventory.MostWays {
			t.Errorf("%q: %d ways, %v", text, len(ways), err)
		}
		for _, way := range ways {
			if way.Sweater < 0 || way.Sweater > inventory.MostSweater {
				t.Errorf("%q: sweater %d", text, way.Sweater)
			}
			if way.When.After(inventorytest.Now()) || way.When.End.Before(way.When.Start) {
				t.Errorf("%q: %s", text, way.When.Say(time.UTC))
			}
		}
	})
}
