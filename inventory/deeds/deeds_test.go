package deeds

import (
	"go/ast"
	"reflect"
	"testing"

	"steeltally/inventory/inventorytest"
)

// allDeeds is one of every deed; TestEveryDeedIsTried holds it against the source.
func allDeeds() []Deed {
	return []Deed{
		AddPair{}, AddPlayer{}, AddSession{}, ChangeClub{}, ChangePlayer{}, ChangeSteel{}, DeclareModel{}, FindOld{}, FindManyOld{}, FoundClub{},
		GiveRole{}, Grind{}, GrindMany{}, Inspect{}, KeepAll{}, KeepClock{}, KnowFromTags{},
		MakeSet{}, MeasureSteel{}, NoteContainer{},
		NotePrints{}, NoteSpecs{}, OtherPlayer{}, OtherSet{}, PutAt{}, PutSetIn{}, RefuseChange{}, ReportDamage{}, SetClock{},
		ReserveBlank{}, RivetOff{}, RivetOn{}, StockIn{}, SwapSides{}, TakeOut{}, TakeRunnerOut{}, Undo{},
		NoteTry{}, NoteSkated{}, NotePitch{}, SetRules{}, HandOver{}, TakeBack{}, NoteAnswer{}, Scrap{}, CallEmergency{},
		EndEmergency{}, CloseEmergency{}, AddTrip{}, ChangeRoster{}, Pack{}, CountTrunks{}, NoteKit{}, CallUp{}, Promote{}, Trade{}, ImportSchedule{}, WoreSweater{},
	}
}

func TestEveryDeedIsTried(t *testing.T) {
	tried := map[string]bool{}
	for _, deed := range allDeeds() {
		tried[reflect.TypeOf(deed).Name()] = true
	}
	found := 0
	inventorytest.EachDeclaration(t, ".", func(declared ast.Decl) {
		method, ok := declared.(*ast.FuncDecl)
		if !ok || method.Name.Name != "Decide" || method.Recv == nil {
			return
		}
		found++
		if name := method.Recv.List[0].Type.(*ast.Ident).Name; !tried[name] {
			t.Errorf("%s is a deed that the tests don't try: add it to allDeeds", name)
		}
	})
	if found < 30 || found != len(tried) {
		t.Errorf("%d deeds are in the source, %d are tried", found, len(tried))
	}
}

// randomDeed is a random deed; most of them make no sense.
func randomDeed(c inventorytest.Chance) Deed {
	all := allDeeds()
	made := reflect.New(reflect.TypeOf(all[c.IntN(len(all))])).Elem()
	c.Fill(made)
	return made.Interface().(Deed)
}

// Whatever the record holds and whatever is asked: a decision does not fail, changes
// nothing, gives the same answer again, and what it wants recorded can be read back.
func TestDecisionsArePureAndTotal(t *testing.T) {
	accepted := map[string]int{}
	for seed := range uint64(12) {
		c := inventorytest.NewChance(t, "..", 100+seed)
		d := openClubhouse(t).desk
		if seed%2 == 1 {
			for range 60 {
				d.Add(c.Event())
			}
		}
		for range 200 {
			c.Past = d.Events()
			if deed := randomDeed(c); decideTwice(t, d, deed, Moment{c.When(), theNow}) {
				accepted[reflect.TypeOf(deed).Name()]++
			}
		}
	}
	if len(accepted) < 15 {
		t.Errorf("only these deeds were ever accepted: %v", accepted)
	}
}

// decideTwice gives a deed twice, and notes what comes of it.
func decideTwice(t *testing.T, d *desk, deed Deed, m Moment) bool {
	t.Helper()
	before, asked := snapshot(t, &d.Ledger), inventorytest.AsJSON(t, deed)
	first, err := deed.Decide(&d.Ledger, m)
	second, again := deed.Decide(&d.Ledger, m)
	switch {
	case snapshot(t, &d.Ledger) != before || inventorytest.AsJSON(t, deed) != asked:
		t.Fatalf("%T %s changed the record or itself", deed, asked)
	case (err == nil) != (again == nil) || err != nil && err.Error() != again.Error():
		t.Fatalf("%T %s: %v, then %v", deed, asked, err, again)
	case inventorytest.AsJSON(t, first) != inventorytest.AsJSON(t, second):
		t.Fatalf("%T %s: %s, then %s", deed, asked, inventorytest.AsJSON(t, first), inventorytest.AsJSON(t, second))
	case err != nil && hintOf(err) == "":
		t.Fatalf("%T %s: %v does not say what to do next", deed, asked, err)
	case err != nil:
		return false
	case len(first.Drafts) == 0 && reflect.TypeOf(deed).Kind() == reflect.Struct:
		t.Fatalf("%T %s was accepted, and nothing is to be recorded", deed, asked)
	}
	for _, e := range d.note(first.Drafts...) {
		text := inventorytest.AsJSON(t, &e)
		if back := inventorytest.ReadEvent(t, text); inventorytest.AsJSON(t, &back) != text || back.Newer() || reflect.TypeOf(back.Body) != reflect.TypeOf(e.Body) {
			t.Fatalf("%T %s recorded %s, which is read as %s", deed, asked, text, inventorytest.AsJSON(t, &back))
		}
	}
	return true
}
