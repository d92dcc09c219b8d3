package templates

import (
	"maps"
	"reflect"
	"slices"
	"testing"
	"text/template"
)

// A club's own template reaches no file, no command and no part of the program: besides
// what text/template itself brings, which reads and runs nothing, it can call one
// function, and its content is made of plain values and of methods that give text.
func TestTemplatesReachNothingButTheirContent(t *testing.T) {
	if got := slices.Collect(maps.Keys(functions())); !slices.Equal(got, []string{"upper"}) {
		t.Errorf("templates can call %v", got)
	}
	content := reflect.TypeFor[Content]()
	if content.NumField() < 20 || reflect.PointerTo(content).NumMethod() == 0 {
		t.Fatalf("%d fields, %d methods: nothing was looked at", content.NumField(), content.NumMethod())
	}
	for i := range content.NumField() {
		if kind := content.Field(i).Type.String(); kind != "string" && kind != "bool" && kind != "[]string" {
			t.Errorf("the field %s is a %s", content.Field(i).Name, kind)
		}
	}
	whole := reflect.PointerTo(content)
	for i := range whole.NumMethod() {
		if kind := whole.Method(i).Type.String(); kind != "func(*templates.Content) string" {
			t.Errorf("the method %s is a %s", whole.Method(i).Name, kind)
		}
	}
}

// What a template may want to call is refused when it is parsed.
func TestTemplatesCallNoCommands(t *testing.T) {
	for _, source := range []string{
		`{{exec "id"}}`, `{{readFile "/etc/passwd"}}`, `{{env "HOME"}}`, `{{open "x"}}`, `{{include "x"}}`,
		`{{template "/etc/passwd"}}`, `{{call .Short}}`, `{{.Short.Execute}}`, `{{(index .Lines 0).Read}}`,
	} {
		p := &parser{name: "own"}
		if parsed := p.content("text", "content", source); parsed != nil {
			t.Errorf("%s is taken", source)
		}
	}
	if _, err := template.New("").Funcs(functions()).Parse(`{{upper .Short}}`); err != nil {
		t.Error(err)
	}
}
