package process
import ("testing";"fmt";"os")
func TestDump(t *testing.T){
 f,_:=os.Create("/tmp/dump.txt")
 for n, rows := range [][]badFile{badSyntax, badKeys, badStations, badBores, badBars, badRest} { _=n
  for _, row := range rows { _,err:=Load("job.toml",[]byte(edit(t,row.file,row.edits...)),nil); fmt.Fprintf(f,"## %s\n%v\n",row.why,err)}}
}
