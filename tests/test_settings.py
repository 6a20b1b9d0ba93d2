def test_it_stands(client):
    assert client.get("/nowhere").status_code == 404
