package sheets

import (
	"fmt"
	"io"

	"borewright/process/measured"
	"borewright/process/qty"
)

// BuildShop lays out what finished jobs say of the shop's machines: spring
// predicted against seen, by bar and stickout, and what follows for force and
// spindle nose. Sizes are in u.
func BuildShop(u qty.Unit, jobs int, fits []measured.ShopFit) *Sheet {
	f := u
	s := &Sheet{Kind: "Spring, predicted and seen", Title: "What is learned from " + count(jobs, "finished job")}
	for _, fit := range fits {
		t := &Table{Columns: []Column{{Head: []string{"bar"}, Align: Decimal}, {Head: []string{"stickout"}, Align: Decimal}, {Head: []string{"cuts"}, Align: Decimal},
			{Head: []string{"spring", "predicted"}, Align: Decimal}, {Head: []string{"spring", "seen"}, Align: Decimal}, {Head: []string{"seen over", "predicted"}, Align: Decimal}, {Head: []string{"between", "cuts ±"}, Align: Decimal}}}
		for _, b := range fit.Bars {
			spread := "-"
			if b.Cuts > 1 {
				spread = factor(b.Spread)
			}
			t.Rows = append(t.Rows, Row{Cells: []string{f.Bare(b.Bar), f.Format(b.Stickout), fmt.Sprint(b.Cuts), f.Bare(qty.Fine(b.Predicted)), f.Bare(qty.Fine(b.Seen)), factor(b.Ratio), spread}})
		}
		kv := &KeyValues{Items: []KeyValue{{"Cutting force", fmt.Sprintf("%s ±%s of what is predicted", factor(fit.Force), factor(fit.ForceDoubt))}}}
		if fit.Apart {
			kv.Items = append(kv.Items, KeyValue{"Spindle nose", fmt.Sprintf("%s ±%s of the stiffness stated", factor(fit.Root), factor(fit.RootDoubt))})
		} else {
			kv.Items = append(kv.Items, KeyValue{"Spindle nose", "taken as stated: " + fit.Why})
		}
		kv.Items = append(kv.Items, KeyValue{"Fit", fmt.Sprintf("what is left over is %s times what gauge and setting explain, over %s", bare(qty.KindRatio, fit.Misfit), count(fit.Cuts, "cut"))})
		s.section(fit.Machine+", in "+f.Word(), t, kv, &Paragraph{Text: "± is 19 times in 20. Bar: its slenderest step. Spring is on diameter, by the depth that was cut in fact."})
	}
	s.eachText(func(x *string) { *x = clean(*x) })
	return s
}

// WriteShop prints that as text.
func WriteShop(w io.Writer, u qty.Unit, jobs int, fits []measured.ShopFit) error {
	return BuildShop(u, jobs, fits).WriteText(w)
}

func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
