package bar
import ("testing";"fmt";"math")
func TestQ(t *testing.T){
 inf:=math.Inf(1)
 s:=Section{D:50,Length:250,E:210000,Nu:.3,Rho:7850}
 b,err:=New([]Section{s},Root{inf,inf},250,nil,0)
 fmt.Println(err,b.Compliance(), b.Overhang(), b.Stress(1000,0))
 fmt.Println(b.Modes(4))
 ms,_:=b.Modes(1000); c:=0.0; for _,m:=range ms {c+=1/m.Stiffness}; fmt.Println(len(ms),c/b.Compliance()-1)
 b,_=New([]Section{s},Root{inf,inf},250,nil,1)
 fmt.Println(b.Modes(2))
 b,_=New([]Section{s},Root{500e3,2e9},250,nil,0); fmt.Println(b.Compliance()); fmt.Println(b.Modes(2)); fmt.Println(b.LeastReal(.02)); fmt.Println(b.CutLimit(0,.02),b.CutLimit(60,.02),b.CutLimit(6000,.02),b.CutLimit(8000,.02))
 fmt.Println(b.Response(0,.02)); fmt.Println(b.Sag())
 p:=Section{D:60,Length:600,E:210000,Nu:.3,Rho:7850}
 b,_=New([]Section{p},Root{inf,inf},300,&Support{600,inf},0); fmt.Println(b.Compliance(),b.Overhang(), b.Stress(1000,0)); fmt.Println(b.Modes(2))
}
func BenchmarkModes(b *testing.B){ s:=Section{D:50,Length:250,E:210000,Nu:.3,Rho:7850}
 for b.Loop(){ x,_:=New([]Section{s,s,s},Root{500e3,2e9},650,nil,0); x.Modes(3)}}
func BenchmarkC(b *testing.B){ s:=Section{D:50,Length:250,E:210000,Nu:.3,Rho:7850}
 x,_:=New([]Section{s,s,s},Root{500e3,2e9},650,nil,0)
 for b.Loop(){ x.Compliance()}}
func BenchmarkS(b *testing.B){ s:=Section{D:50,Length:250,E:210000,Nu:.3,Rho:7850}
 x,_:=New([]Section{s,s,s},Root{500e3,2e9},650,nil,0)
 for b.Loop(){ x.Stress(100,200)}}
func BenchmarkMg(b *testing.B){ s:=Section{D:50,Length:250,E:210000,Nu:.3,Rho:7850}
 x,_:=New([]Section{s,s,s},Root{500e3,2e9},650,nil,0)
 for b.Loop(){ x.Margin(100,100,.02)}}
