package desk

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
	"unicode"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// Unread is a scan that could not be taken, with the reason.
type Unread struct {
	Line   int    `json:"line"`
	Scan   string `json:"scan"`
	Reason string `json:"reason"`
	Trunk  bool   `json:"-"` // may have been meant for a trunk
}

// NotTakenError says that some scans were not taken, while the others were recorded.
type NotTakenError struct {
	Unread []Unread
	None   bool // nothing at all was recorded
}

// hint says what to do about it.
func (e *NotTakenError) hint() string {
	if e.None {
		return "nothing was recorded; scan them again"
	}
	return "everything else is recorded; scan those again"
}

func (e *NotTakenError) Error() string {
	return "not taken: " + SayCount(len(e.Unread), "scan")
}

// Pack puts what was scanned into trunks for a trip: a trunk first, then what goes into
// it. A player stands for his spare pair; "250 x rivets 5 mm" counts a kit. What can't
// be taken is told, the rest is recorded.
func (d *Desk) Pack(trip, trunk string, scans []string, out bool) (Done, error) {
	var unread []Unread
	done, err := d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		p := &packing{v: v, at: d.Instant()}
		if trunk != "" {
			n, ok := p.trunk(trunk)
			if !ok {
				return nil, &inventory.Refusal{Reason: "there is no trunk " + trunk, Hint: "steeltally stockin trunk --name " + inventory.Quoted(trunk) + " enters one"}
			}
			p.open(n)
		}
		p.takeAll(scans, trunk)
		unread = p.unread
		if len(unread) == len(scans) && len(unread) > 0 {
			return nil, &NotTakenError{unread, true}
		}
		return deeds.Pack{Trip: trip, Lots: p.lots, Out: out}, nil
	})
	if err == nil && len(unread) > 0 {
		err = &NotTakenError{Unread: unread}
	}
	return done, err
}

// packing sorts scans into trunks.
type packing struct {
	v      inventory.View
	at     time.Time
	lots   []deeds.PackLot
	unread []Unread
	lost   int // line of a scan that may have been another trunk; 0: it is known which is open
}

func (p *packing) open(trunk inventory.Number) {
	p.lots = append(p.lots, deeds.PackLot{Trunk: trunk})
}

func (p *packing) lot() *deeds.PackLot {
	if len(p.lots) == 0 {
		p.open(0)
	}
	return &p.lots[len(p.lots)-1]
}

// takeAll sorts scans in; where it was said into which trunk all of it goes, no scan is
// taken for another one.
func (p *packing) takeAll(scans []string, trunk string) {
	for i, scan := range scans {
		err := p.take(scan)
		if err == nil {
			continue
		}
		var named *NamedOnlyError
		mayBe := MayBeTrunk(scan) && !errors.As(err, &named)
		p.unread = append(p.unread, Unread{i + 1, scan, err.Error(), mayBe})
		if p.lost == 0 && trunk == "" && mayBe {
			p.lost = i + 1
		}
	}
}

// MayBeTrunk tells whether what was scanned or typed, and stands for nothing, may have been
// meant for a trunk: its number misread, or its name. What follows goes nobody knows where.
func MayBeTrunk(scan string) bool {
	const digitsOfNumber = 10
	word := inventory.AsScanned(scan)
	if digits := strings.Trim(word, "0123456789"); digits == "" {
		return strings.HasPrefix(word, strconv.Itoa(int(inventory.KindTrunk))) && len(word) == digitsOfNumber
	}
	letter, rest, isNumber := strings.Cut(word, "-")
	if isNumber && len(letter) == 2 && letter[1] >= '0' && letter[1] <= '9' && rest != "" {
		return strings.EqualFold(letter[:1], "T") || strings.EqualFold(letter[:1], "B")
	}
	nameless := func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune(" -.'", r)
	}
	return unicode.IsLetter([]rune(word + " ")[0]) && !strings.ContainsFunc(word, nameless)
}

// take sorts one scan in.
func (p *packing) take(scan string) error {
	if trunk, ok := p.trunk(scan); ok {
		p.open(trunk)
		p.lost = 0
		return nil
	}
	if p.lost > 0 {
		return fmt.Errorf("line %d may have been another trunk: scan the trunk again, then this", p.lost)
	}
	if kit, ok, err := p.kit(scan); ok || err != nil {
		if err == nil {
			p.lot().Kits = append(p.lot().Kits, kit)
		}
		return err
	}
	n, err := p.piece(scan)
	if err != nil {
		return err
	}
	for _, lot := range p.lots {
		for _, already := range lot.Pieces {
			if already == n && lot.Trunk == p.lot().Trunk {
				return nil // scanned twice
			}
		}
	}
	p.lot().Pieces = append(p.lot().Pieces, n)
	return nil
}

// trunk is the trunk that a scan or a name stands for.
func (p *packing) trunk(scan string) (inventory.Number, bool) {
	n, err := inventory.ScannedNumber(scan)
	if err == nil && (n.Kind() == inventory.KindTrunk || n.Kind() == inventory.KindBin) {
		container, err := inventory.FindContainer(p.v, n)
		return n, err == nil && container != nil
	}
	if err == nil {
		return 0, false
	}
	if container := inventory.ContainerNamed(p.v, scan); container != nil {
		return container.Number, true
	}
	return 0, false
}

// kit reads "250 x rivets 5 mm" and finds the kit by its name.
func (p *packing) kit(scan string) (inventory.KitCount, bool, error) {
	count, name, found := strings.Cut(scan, " x ")
	number, err := strconv.Atoi(strings.TrimSpace(count))
	if !found || err != nil {
		return inventory.KitCount{}, false, nil
	}
	name = strings.TrimSpace(name)
	for _, kit := range inventory.KitList(p.v) {
		if strings.EqualFold(kit.Kit, name) && number >= 0 {
			return inventory.KitCount{Kit: kit.Kit, Count: number}, true, nil
		}
	}
	return inventory.KitCount{}, false, &inventory.Refusal{Reason: "no kit is called " + name, Hint: "steeltally trip kit \"" + name + "\" --least 1 adds it"}
}

// piece is what a scan stands for; a player stands for his spare pair.
func (p *packing) piece(scan string) (inventory.Number, error) {
	n, err := inventory.ScannedNumber(scan)
	if err != nil || n.Kind() == inventory.KindPlayer {
		return spareMeant(p.v, scan, p.at)
	}
	if n.Kind() == inventory.KindTrunk || n.Kind() == inventory.KindBin {
		return 0, &inventory.Refusal{Reason: n.Short() + " is not in this book"}
	}
	if inventory.StateEntered(p.v, n) {
		return n, nil
	}
	return 0, &inventory.Refusal{Reason: n.Short() + " is not in this book"}
}

// CountTrunks counts trunks out or back, one scan a trunk, and names those that are not
// here.
func (d *Desk) CountTrunks(trip string, scans []string, back bool) (Done, []NotHere, error) {
	var missing []NotHere
	var unread []Unread
	done, err := d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		deed := deeds.CountTrunks{Trip: trip, Back: back}
		p := &packing{v: v, at: d.Instant()}
		for i, scan := range scans {
			n, ok := p.trunk(scan)
			if !ok {
				unread = append(unread, Unread{Line: i + 1, Scan: scan, Reason: "not one of the club's trunks"})
				continue
			}
			deed.Trunks = append(deed.Trunks, n)
		}
		if len(deed.Trunks) == 0 && len(unread) > 0 {
			return nil, &NotTakenError{unread, true}
		}
		found, err := inventory.FindTrip(v, trip)
		if err == nil {
			missing = notHere(v, inventory.TrunksNotHere(found, back, deed.Trunks, d.Instant()))
		}
		return deed, err
	})
	if err == nil && len(unread) > 0 {
		err = &NotTakenError{Unread: unread}
	}
	return done, missing, err
}
